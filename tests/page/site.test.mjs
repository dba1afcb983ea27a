// The course as the files of a site: everything that holds for the one page holds here, and a page
// loads only what it needs.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, open } from './browser.mjs';

process.env.POINTWRIGHT_SITE = '1';
await import('./reader.test.mjs');

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

test('the engine is fetched when a board that needs it comes into view, and once', async () => {
  const { page, trouble, asked, close } = await open(browser);
  await page.locator('.contents').waitFor();
  assert.equal(await page.title(), await page.locator('.masthead h1').textContent());
  const kinds = () => asked.map((name) => name.replace(/-[0-9a-f]{16}/, '')).sort();
  assert.deepEqual(kinds(), ['index.html', 'page.js', 'reader.js', 'style.css']);
  await page.locator('.contents a[href="chapter-coming-in.html"]').click();
  await page.getByRole('button', { name: 'Try it yourself' }).first().click();
  await page.locator('.place').first().waitFor();
  assert.deepEqual(
    kinds().filter((name) => /engine|worker/.test(name)),
    ['engine.wasm', 'worker.js'],
  );
  assert.ok(!kinds().includes('chapter-the-board.html'), 'no other chapter was loaded');
  assert.deepEqual(trouble, []);
  await close();
});
