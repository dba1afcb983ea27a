// Tries the presenter's deck of one chapter of the demo course: keys, notes, and what is printed.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { build, launch, objections, open, pictures, root, sizes } from './browser.mjs';

const folder = mkdtempSync(path.join(tmpdir(), 'pointwright-slides-'));
let browser;
let url;
before(async () => {
  const lesson = path.join(root, 'lessons/first-evenings/01-the-board.md');
  execFileSync(path.join(build, 'app/pointwright'), ['build', lesson, '-o', folder + '/out', '--make', 'slides'], {
    stdio: 'ignore',
  });
  url = pathToFileURL(path.join(folder, 'out/slides.html')).href;
  browser = await launch();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

const withDeck = async (options, use) => {
  const opened = await open(browser, { url, viewport: sizes.laptop, ...options });
  try {
    await use(opened.page);
    if (options.javaScriptEnabled !== false) assert.deepEqual(await opened.page.evaluate('violations'), []);
    assert.deepEqual(opened.trouble, []);
  } finally {
    await opened.close();
  }
};

const shown = async (page) => {
  const visible = page.locator('.slide:visible');
  assert.equal(await visible.count(), 1);
  return Number((await visible.getAttribute('id')).replace('slide-', ''));
};

describe('the deck', () => {
  test('goes on and back by keys and by a click, and keeps its place in the address', () =>
    withDeck({}, async (page) => {
      const count = await page.locator('.slide').count();
      assert.equal(await shown(page), 1);
      for (const key of ['ArrowRight', ' ', 'PageDown', 'Enter', 'ArrowDown']) await page.keyboard.press(key);
      assert.equal(await shown(page), 6);
      assert.equal(new URL(page.url()).hash, '#slide-6');
      for (const key of ['ArrowLeft', 'PageUp', 'ArrowUp']) await page.keyboard.press(key);
      assert.equal(await shown(page), 3);
      await page.locator('.slide:visible').click();
      assert.equal(await shown(page), 4);
      await page.keyboard.press('End');
      assert.equal(await shown(page), count);
      await page.keyboard.press('ArrowRight');
      assert.equal(await shown(page), count, 'there is nothing after the last');
      await page.keyboard.press('[');
      assert.equal(await shown(page), 2, 'where the chapter opens');
      await page.keyboard.press('Home');
      await page.keyboard.press(']');
      assert.equal(await shown(page), 2);
      assert.equal(await page.locator(':focus').getAttribute('id'), 'slide-2', 'who hears the deck hears it');
    }));

  test('opens at the slide of its address', () =>
    withDeck({ hash: '#slide-7' }, async (page) => assert.equal(await shown(page), 7)));

  test('shows notes when they are asked for', () =>
    withDeck({ hash: '#slide-3' }, async (page) => {
      const notes = page.locator('.slide:visible .notes');
      assert.equal(await notes.isVisible(), false);
      await page.keyboard.press('n');
      assert.equal(await notes.isVisible(), true);
      await page.screenshot({ path: path.join(pictures, 'slide-notes.png') });
    }));

  test('is dark where that is preferred, and turns at a key', () =>
    withDeck({ hash: '#slide-4', colorScheme: 'dark' }, async (page) => {
      const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
      const dark = await ground();
      await page.keyboard.press('d');
      const light = await ground();
      assert.notEqual(light, dark);
      await page.keyboard.press('d');
      assert.equal(await ground(), dark);
      await page.emulateMedia({ colorScheme: 'light', media: 'screen' });
      assert.equal(await ground(), dark);
      await page.keyboard.press('d');
      assert.equal(await ground(), light);
    }));

  test('fits every screen without scrolling', () =>
    Promise.all(
      Object.entries(sizes).map(([name, viewport]) =>
        withDeck({ viewport, hash: '#slide-4' }, async (page) => {
          const [wide, high] = await page.evaluate(() => [
            document.documentElement.scrollWidth - innerWidth,
            document.documentElement.scrollHeight - innerHeight,
          ]);
          assert.ok(wide <= 0 && high <= 0, `${name}: ${wide} by ${high} too large`);
          for (const colorScheme of ['light', 'dark']) {
            await page.emulateMedia({ colorScheme });
            await page.screenshot({ path: path.join(pictures, `slide-${name}-${colorScheme}.png`) });
          }
        }),
      ),
    ));

  test('can be used by those who see or hear otherwise', () =>
    withDeck({ hash: '#slide-4' }, async (page) => {
      for (const colorScheme of ['light', 'dark']) {
        await page.emulateMedia({ colorScheme });
        assert.deepEqual(await objections(page), []);
      }
    }));

  test('is all there without scripts', () =>
    withDeck({ javaScriptEnabled: false }, async (page) => {
      assert.ok((await page.locator('.slide:visible').count()) > 10);
    }));

  test('prints a slide to a page', () =>
    withDeck({}, async (page) => {
      const count = await page.locator('.slide').count();
      const file = path.join(folder, 'deck.pdf');
      writeFileSync(file, await page.pdf({ preferCSSPageSize: true, printBackground: true }));
      const told = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
      assert.equal(Number(/Pages: +(\d+)/.exec(told)[1]), count);
      const [, width, height] = /Page size: +([\d.]+) x ([\d.]+)/.exec(told);
      assert.ok(Number(width) > Number(height), 'across');
    }));
});
