// Measures what docs/benchmarks.md reports of pages: sizes, the time to the first board, questions
// to the engine, and long tasks while dragging. Run by hand: npm run measure
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, drag, launch, open, pictures, root, sizes } from './browser.mjs';
import { start } from './engine.mjs';

const kilobytes = (file) => Math.round(statSync(file).size / 1000);
const program = path.join(build, 'app/pointwright');
const course = path.join(pictures, 'measured-course.html');
const table = path.join(pictures, 'measured-table.html');
execFileSync(program, ['build', path.join(root, 'lessons/first-evenings'), '--output', course]);
execFileSync(program, ['table', '--output', table]);
console.log(`course ${kilobytes(course)} kB, table ${kilobytes(table)} kB, engine ${kilobytes(path.join(root, 'build/wasm/engine.wasm'))} kB`);

const ask = start(readFileSync(path.join(root, 'build/wasm/engine.wasm')));
const timed = (question) => {
  for (let i = 0; i < 50; ++i) ask(question);
  const times = Array.from({ length: 200 }, () => {
    const from = performance.now();
    ask(question);
    return performance.now() - from;
  }).sort((a, b) => a - b);
  return `${times[100].toFixed(2)} ms, 95% within ${times[190].toFixed(2)} ms`;
};
const opening = 'position light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5; light to play';
console.log('legal plays of 3-1:', timed(`plays\n${opening} 3-1`));
console.log('a turn of 1-1:', timed(`turn\n${opening} 1-1`));
console.log('a ruling:', timed(`rule\n${opening} 3-1\nplay 13/7`));
console.log('plays ranked one roll ahead:', timed(`ranking\n${opening} 3-1`));

// The same evaluations in both builds, one after the other: positions of the parity test.
const native = path.join(build, 'tests/page/parity');
const lines = execFileSync(native, ['2000', '7']).toString().trim().split('\n').map((line) => line.split('\t')[0]);
const perSecond = (evaluate) => {
  const from = performance.now();
  evaluate();
  return Math.round((20 * lines.length * 1000) / (performance.now() - from));
};
const inWebAssembly = perSecond(() => {
  for (let i = 0; i < 20; ++i) for (const line of lines) ask(`evaluation\nposition ${line}`);
});
const inNative = Number(execFileSync(native, ['evaluate', '20'], { input: `${lines.join('\n')}\n` }).toString());
console.log(`evaluations a second, text in and JSON out: WebAssembly ${inWebAssembly}, native ${Math.round(inNative)}, ratio ${(inWebAssembly / inNative).toFixed(2)}`);

const browser = await launch();
for (const rate of [1, 4]) {
  const { page, close } = await open(browser, { url: pathToFileURL(course).href, viewport: sizes.laptop, hash: '#09-coming-in' });
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  await page.reload();
  const drawn = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
  console.log(`course, processor slowed ${rate} times: first board drawn after ${Math.round(drawn)} ms`);
  await close();
}
{
  const { page, close } = await open(browser, { url: pathToFileURL(table).href, viewport: sizes.laptop, hash: '#en' });
  await page.getByRole('dialog').waitFor();
  await page.locator('select[name=dice]').selectOption('real');
  await page.getByRole('button', { name: 'Begin' }).click();
  for (const face of [3, 1]) await page.locator(`.die[data-face="${face}"]`).click();
  await page.locator('.turn-status').getByText('to play 3-1').waitFor();
  await page.evaluate(() => {
    globalThis.long = [];
    new PerformanceObserver((list) => globalThis.long.push(...list.getEntries().map((e) => e.duration))).observe({ type: 'longtask' });
  });
  const place = (name) => page.locator(`.place[data-place="${name}"]`);
  for (let i = 0; i < 10; ++i) await drag(page, place('13'), place('7'));
  console.log('ten drags: tasks over 50 ms:', JSON.stringify(await page.evaluate('long')));
  await close();
}
await browser.close();
