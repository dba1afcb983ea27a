// The custom element in a page that is not ours, with a strict policy and a style of its own.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { build, drag, launch, objections, pictures, root, sizes } from './browser.mjs';

const folder = mkdtempSync(path.join(tmpdir(), 'pointwright-element-'));
const types = { '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm' };
const policy =
  "default-src 'none'; style-src 'unsafe-inline'; script-src http://boards.example 'wasm-unsafe-eval'; " +
  'connect-src http://boards.example; worker-src blob:';
const opening = 'light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play 3-1';
const foreign = `<!doctype html><html lang="en"><head><title>Somebody's page</title>
<meta http-equiv="Content-Security-Policy" content="${policy}">
<style>body { font: 16px sans-serif; max-width: 40rem } svg { display: none } button { color: red; border: 9px solid }</style>
<script type="module" src="http://boards.example/pointwright-board.js"></script></head>
<body><main><h1>Somebody's page</h1>
<pointwright-board id="still" position="${opening}"></pointwright-board>
<pointwright-board id="play" playable light="Fern" dark="Plum" position="${opening}"></pointwright-board>
<pointwright-board id="wrong" position="light 25x1"></pointwright-board>
</main></body></html>`;

let browser;
before(async () => {
  execFileSync(path.join(root, 'tools/build-element'), [folder], { env: { ...process.env, POINTWRIGHT_BUILD: build } });
  browser = await launch();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

const open = async (options = {}) => {
  const context = await browser.newContext({ viewport: sizes.laptop, reducedMotion: 'reduce', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const trouble = [];
  page.on('console', (message) => trouble.push(message.text()));
  page.on('pageerror', (error) => trouble.push(error.message));
  const asked = [];
  await page.route('**/*', (route) => {
    const url = new URL(route.request().url());
    if (url.host === 'somebody.example') return route.fulfill({ contentType: 'text/html', body: foreign });
    const name = path.basename(url.pathname);
    asked.push(name);
    return route.fulfill({
      path: path.join(folder, name),
      contentType: types[path.extname(name)],
      headers: { 'Access-Control-Allow-Origin': '*' },
    });
  });
  await page.goto('http://somebody.example/');
  return { page, trouble, asked, close: () => context.close() };
};

test('shows a position, a board to play on, and what is wrong, and touches nothing around', async () => {
  const { page, trouble, asked, close } = await open();
  const still = page.locator('#still');
  await still.getByRole('img', { name: /to play 3-1/ }).waitFor();
  assert.equal(await still.locator('use[data-at]').count(), 30);
  await page.locator('#wrong').getByRole('alert').waitFor();

  const play = page.locator('#play');
  const place = (name) => play.locator(`.place[data-place="${name}"]`);
  await play.locator('.turn-status').getByText('Fern to play 3-1.').waitFor();
  await page.evaluate(() => {
    document.getElementById('play').addEventListener('pointwright-play', ({ detail }) => (globalThis.told = detail));
  });
  await place('13').click();
  await place('7').click();
  await play.getByText('Refused.').waitFor();
  await drag(page, place('8'), place('5'));
  await place('6').click();
  await place('5').click();
  await play.locator('.turn-status').getByText('Fern has played 8/5 6/5.').waitFor();
  await play.getByRole('button', { name: 'Lift the dice' }).click();
  await play.locator('.turn-status').getByText('Fern played 8/5 6/5. Plum to roll.').waitFor();
  assert.match((await page.evaluate('told')).play, /^8\/5 6\/5$/);
  assert.match((await page.evaluate('told')).position, /dark to roll/);

  // Another position, by property.
  await page.evaluate(() => (document.getElementById('still').position = 'light 6x2; dark 6x1; dark to roll'));
  await still.locator('use[data-at="light 24"]').first().waitFor({ state: 'detached' });
  assert.deepEqual(
    [...new Set(asked)].sort(),
    ['board.css', 'engine.wasm', 'pointwright-board.js', 'worker.js'],
  );
  assert.equal(asked.length, 4, 'each file once, for all boards');
  assert.deepEqual(trouble, []);
  await close();
});

test('is accessible and no wider than its place, at three sizes, light and dark', async () => {
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      const { page, close } = await open({ viewport, colorScheme });
      await page.locator('#play .turn-status').getByText('Fern to play 3-1.').waitFor();
      assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= viewport.width);
      if (size !== 'projector') {
        // The foreign page stays white: the element brings the ground that its words stand on.
        assert.deepEqual(await objections(page), []);
      }
      await page.screenshot({ path: `${pictures}/element-${size}-${colorScheme}.png`, fullPage: true });
      await close();
    }
  }
});

test('its types are those of the package', () => {
  const declared = readFileSync(path.join(folder, 'pointwright-board.d.ts'), 'utf8');
  for (const name of ['position', 'playable', 'pointwright-play', 'pointwright-drawn']) assert.ok(declared.includes(name));
});
