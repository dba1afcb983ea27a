// Builds the demo course with the program and looks at every chapter of it.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { build, launch, objections, open, pictures, root, sizes } from './browser.mjs';

const file = path.join(pictures, 'course.html');
let browser;
before(async () => {
  const program = path.join(build, 'app/pointwright');
  execFileSync(program, ['build', path.join(root, 'lessons/first-evenings'), '--output', file]);
  browser = await launch();
});
after(() => browser?.close());

describe('the demo course', () => {
  // The second time only what depends on colours is scanned again: a scan of a course takes a while.
  for (const [size, colorScheme, rules] of [
    ['laptop', 'light', null],
    ['phone', 'dark', ['color-contrast']],
  ]) {
    test(`every chapter at ${size} size, ${colorScheme}`, async () => {
      const { page, trouble, close } = await open(browser, {
        url: pathToFileURL(file).href,
        viewport: sizes[size],
        colorScheme,
        reducedMotion: 'reduce',
      });
      const chapters = await page.locator('.chapter').evaluateAll((all) => all.map(({ id }) => id));
      assert.ok(chapters.length >= 12, `${chapters.length} chapters`);
      for (const chapter of chapters) {
        await page.evaluate((id) => (location.hash = id), chapter);
        // A chapter is laid out when it is opened.
        await page.locator(`[id="${chapter}"] h2`).first().waitFor();
        // Opens every reason, and leaves every show at its end.
        await page.evaluate((id) => {
          const shown = document.getElementById(id);
          for (const details of shown.querySelectorAll('details')) details.open = true;
          for (const scene of shown.querySelectorAll('.scene.show'))
            scene.dispatchEvent(new KeyboardEvent('keydown', { key: 'End' }));
        }, chapter);
        const narrow = (scan) => (rules ? scan.include(`[id="${chapter}"]`).withRules(rules) : scan.include(`[id="${chapter}"]`));
        assert.deepEqual(await objections(page, narrow), [], chapter);
        assert.equal(
          await page.evaluate(() => document.documentElement.scrollWidth),
          sizes[size].width,
          `${chapter} is as wide as the screen`,
        );
        await page.screenshot({ path: `${pictures}/course-${chapter}-${size}-${colorScheme}.png` });
      }
      assert.deepEqual(await page.evaluate('violations'), []);
      assert.deepEqual(trouble, []);
      await close();
    });
  }
});
