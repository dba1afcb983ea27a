// Tries the bench: building by hand and by writing, what cannot stand, and what it gives out.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { build, drag, launch, objections, open, pictures, place, sizes, until } from './browser.mjs';

const file = process.env.BENCH ?? path.join(pictures, 'bench.html');
const url = pathToFileURL(file).href;
let browser;
before(async () => {
  if (!process.env.BENCH) execFileSync(path.join(build, 'app/pointwright'), ['bench', '--output', file]);
  browser = await launch();
});
after(() => browser?.close());

const start = 'light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5';
const line = (page) => page.getByLabel('Position line');
const isLine = async (page, text) => {
  await until(page, (wanted) => document.querySelector('.form-row input').value === wanted, text);
};
const withBench = async (options, use) => {
  const opened = await open(browser, { url, reducedMotion: 'reduce', locale: 'en', ...options });
  try {
    await opened.page.locator('.turn-status').getByText('pips').waitFor();
    await use(opened.page);
    assert.deepEqual(await opened.page.evaluate('violations'), []);
    assert.deepEqual(opened.trouble, []);
  } finally {
    await opened.close();
  }
};

describe('building', () => {
  test('by dragging, by tapping, from the tray and back, for both sides', () =>
    withBench({}, async (page) => {
      await isLine(page, start);
      await drag(page, place(page, '24'), place(page, '20'));
      await isLine(page, 'light 24x1 20x1 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5');
      await place(page, '13').click();
      await place(page, 'off').click();
      await isLine(page, 'light 24x1 20x1 13x4 8x3 6x5 offx1; dark 24x2 13x5 8x3 6x5');
      await drag(page, place(page, 'off'), place(page, 'bar'));
      await isLine(page, 'light barx1 24x1 20x1 13x4 8x3 6x5; dark 24x2 13x5 8x3 6x5');
      await page.getByLabel('Dark', { exact: true }).check();
      await until(page, () => document.querySelector('.place[data-place="6"]').getAttribute('aria-label') === '6-point: 5 Dark');
      await place(page, '6').focus();
      await page.keyboard.press('Enter');
      await place(page, '2').focus();
      await page.keyboard.press('Enter');
      await isLine(page, 'light barx1 24x1 20x1 13x4 8x3 6x5; dark 24x2 13x5 8x3 6x4 2x1');
      await page.reload();
      await isLine(page, 'light barx1 24x1 20x1 13x4 8x3 6x5; dark 24x2 13x5 8x3 6x4 2x1');
    }));

  test('what cannot stand on a board is refused with the reason', () =>
    withBench({}, async (page) => {
      await drag(page, place(page, '13'), place(page, '1'));
      await page.getByRole('alert').getByText(/light's 1.*dark's 24|both/i).waitFor();
      await isLine(page, start);
      await line(page).fill('light 24x16; dark 24x2');
      await page.getByRole('alert').getByText(/15|16/).first().waitFor();
      await line(page).fill(`${start}; light to play 3-1`);
      await until(page, () => document.querySelector('[role=alert]').textContent === '');
      await page.getByText('Ask', { exact: true }).click();
      await page.getByRole('button', { name: 'What may I play?' }).click();
      await page.getByText('Light has 16 legal plays with 3-1:').waitFor();
    }));
});

describe('asking about the cube', () => {
  const paradox = 'light 5x1 2x1; dark 4x1 1x1; light to roll; cube 2 with light';
  const answers = (cube, more) =>
    withBench({}, async (page) => {
      await line(page).fill(cube);
      await page.getByText('Ask', { exact: true }).click();
      await page.getByRole('button', { name: 'Should I double?' }).click();
      for (const words of more) await page.locator('.ask-reply').getByText(words).waitFor();
    });
  // Jacoby's paradox (The Backgammon Book, 1970): a redouble that looks right and is not. The worths
  // are half of 0.48 and 0.22, which are points with the cube at 2.
  test('in a small bear-off the table answers, and says so', () =>
    answers(paradox, ['Light had better wait', 'waiting 0.24, a double that is taken 0.11', /^exact, from the table/]));
  test('at a match score the model answers, from exact chances', () =>
    answers(paradox.replace('; cube 2 with light', '; match to 7 score 0-0'), ['by the model of the cube, from exact chances']));
  test('in a longer game the model answers, from an estimate', () =>
    answers(`${start}; light to roll`, ['too early', 'by the model of the cube, from chances estimated at once']));
});

describe('giving out', () => {
  test('a link opens the same position; a block for a lesson; SVG and PNG', () =>
    withBench({ acceptDownloads: true }, async (page) => {
      await line(page).fill('light barx1 6x2; dark 5x2 3x2; light to play 6-4');
      await page.locator('.turn-status').getByText('Light 37').waitFor();
      const link = await page.getByLabel('Link').inputValue();
      assert.match(link, /#light_barx1_6x2_offx12;_dark_/);
      assert.match(await page.getByLabel('Block for a lesson').inputValue(), /^```board my-board\nlight barx1 6x2/);
      const save = async (kind) => {
        const saving = page.waitForEvent('download');
        await page.getByRole('button', { name: `Save as ${kind}` }).click();
        return readFileSync(await (await saving).path());
      };
      assert.match((await save('SVG')).toString(), /^<svg[^]*<title/);
      const png = await save('PNG');
      assert.equal(png.subarray(1, 4).toString(), 'PNG');
      assert.equal(png.readUInt32BE(16), 1440);
      await page.getByRole('button', { name: 'New game' }).click();
      await isLine(page, start);
      await page.evaluate((to) => (location.hash = to), link.slice(link.indexOf('#')));
      await until(page, () => document.querySelector('.form-row input').value.startsWith('light barx1 6x2'));
    }));
});

describe('accessibility', () => {
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      test(`no violation at ${size} size, ${colorScheme}`, () =>
        withBench({ viewport, colorScheme }, async (page) => {
          await place(page, '13').click();
          await page.screenshot({ path: `${pictures}/bench-${size}-${colorScheme}.png` });
          assert.deepEqual(await objections(page), []);
          assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
        }));
    }
  }
});
