// A lesson in the browser while it is written: `pointwright serve` and the page that it shows.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { after, before, test } from 'node:test';
import { build, launch, objections, pictures, sizes } from './browser.mjs';

const folder = mkdtempSync(path.join(tmpdir(), 'pointwright-serve-'));
const lesson = path.join(folder, 'lesson.md');
const write = (claim) =>
  writeFileSync(
    lesson,
    `---
title: A lesson in the making
---
The first words.

\`\`\`board first
start; light to play 3-1
\`\`\`

\`\`\`claims
${claim}
\`\`\`

The last words. [A sheet](sheet.txt)
`,
  );

let browser;
let serving;
const start = async (port = '0') => {
  serving = spawn(path.join(build, 'app/pointwright'), ['serve', lesson, '--port', port, '--json']);
  for await (const line of createInterface({ input: serving.stdout })) return JSON.parse(line).address;
};
const stop = () =>
  new Promise((resolve) => {
    serving.on('exit', resolve);
    serving.kill('SIGINT');
  });
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser?.close();
  serving?.kill();
  rmSync(folder, { recursive: true });
});

test('a lesson is broken, mended, and left, and the page follows', async () => {
  write('legal 8/5 6/5');
  writeFileSync(path.join(folder, 'sheet.txt'), 'the sheet');
  const address = await start();
  const context = await browser.newContext({ viewport: sizes.laptop });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const trouble = [];
  page.on('console', (message) => {
    if (!/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED/.test(message.text())) trouble.push(message.text());
  });
  page.on('pageerror', (error) => trouble.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith('blob:')) trouble.push(request.url());
  });
  await page.goto(`${address}#lesson`);
  await page.getByText('1 claim and 0 answers proved').waitFor();
  assert.equal(await page.locator('.author-note').count(), 0);

  // False: it is said in place, with the line.
  write('legal 8/3');
  const note = page.locator('.chapter .author-note');
  await note.waitFor();
  assert.match(await note.textContent(), /lesson\.md, line 11, column 7/);
  assert.equal(await note.locator('.message code').textContent(), 'legal 8/3');
  assert.match(await note.locator('pre').first().textContent(), /^11 legal 8\/3/);
  assert.ok(await page.getByText('The last words.').isVisible());
  await page.locator('.preview').getByRole('link').click();
  await page.waitForTimeout(100);
  assert.ok(await note.isVisible());
  for (const [size, viewport] of Object.entries(sizes)) {
    await page.setViewportSize(viewport);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      assert.deepEqual(await objections(page), []);
      await page.screenshot({ path: `${pictures}/preview-${size}-${colorScheme}.png` });
    }
  }
  await page.setViewportSize(sizes.phone);

  // The page that is shown can be played on.
  await page.getByRole('button', { name: 'Try it yourself' }).click();
  await page.locator('.place[data-place="8"]').waitFor();

  // Unreadable, then mended.
  writeFileSync(lesson, 'nothing');
  await page.getByText('does not begin with its front matter').last().waitFor();
  write('legal 8/5 6/5');
  await page.getByText('1 claim and 0 answers proved').waitFor();
  assert.equal(await page.locator('.author-note').count(), 0);

  // A file beside it.
  const [sheet] = await Promise.all([page.waitForResponse(/sheet\.txt/), page.getByText('A sheet').click()]);
  assert.equal(await sheet.text(), 'the sheet');
  await page.goBack();
  await page.getByText('The last words.').waitFor();

  // The preview ends and is started again.
  assert.equal(await stop(), 0);
  await page.getByText('The preview has ended').waitFor();
  write('legal 8/3');
  await start(new URL(address).port);
  await note.waitFor();
  assert.deepEqual(trouble, []);
  await context.close();
});

test('a page from elsewhere cannot read or frame the preview', async () => {
  if (serving.exitCode !== null) await start();
  const port = serving.spawnargs[serving.spawnargs.indexOf('--port') + 1];
  const address = `http://127.0.0.1:${port}/`;
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.route('http://elsewhere.example/', (route) =>
    route.fulfill({ contentType: 'text/html', body: `<iframe src="${address}"></iframe>` }),
  );
  await page.goto('http://elsewhere.example/');
  const read = await page.evaluate(async (url) => {
    const answers = [];
    for (const mode of ['cors', 'no-cors'])
      answers.push(await fetch(url, { mode }).then(async (r) => (await r.text()) || 'opaque', () => 'refused'));
    return answers;
  }, address);
  assert.equal(read[0], 'refused');
  assert.match(read[1], /^(opaque|refused)$/);
  const frame = page.frames()[1];
  assert.doesNotMatch(await frame.content(), /The last words/);
  await context.close();
});
