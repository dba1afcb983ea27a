// Measures what docs/benchmarks.md reports of pages: sizes, the time to the first board, questions
// to the engine, and long tasks while dragging. Run by hand: npm run measure
import { execFileSync } from 'node:child_process';
import { once } from 'node:events';
import { createReadStream, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, drag, launch, open, pictures, root, sizes, until } from './browser.mjs';
import { start } from './engine.mjs';

const kilobytes = (file) => Math.round(statSync(file).size / 1000);
const program = path.join(build, 'app/pointwright');
const course = process.env.COURSE ?? path.join(pictures, 'measured-course.html'); // COURSE: one that is there already
const table = path.join(pictures, 'measured-table.html');
if (!process.env.COURSE) execFileSync(program, ['build', path.join(root, 'lessons/first-evenings'), '--output', course]);
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
// The best of five passes each: in the first ones WebAssembly is still being compiled well.
const best = (pass) => Math.max(...Array.from({ length: 5 }, pass));
const inWebAssembly = best(() => {
  const from = performance.now();
  for (let i = 0; i < 20; ++i) for (const line of lines) ask(`evaluation\nposition ${line}`);
  return Math.round((20 * lines.length * 1000) / (performance.now() - from));
});
const inNative = best(() => Number(execFileSync(native, ['evaluate', '20'], { input: `${lines.join('\n')}\n` }).toString()));
console.log(`evaluations a second, text in and JSON out: WebAssembly ${inWebAssembly}, native ${Math.round(inNative)}, ratio ${(inWebAssembly / inNative).toFixed(2)}`);

// The first board of a chapter: the time at which the frame is done in which it first has a place on
// the screen. The first content drawn (Paint Timing, W3C) would be the title above it.
const firstBoard = (chapter) => {
  const look = () => {
    const box = document.querySelector(`[id="${chapter}"] svg.board`)?.getBoundingClientRect();
    if (!box || box.width === 0 || box.top >= innerHeight) return requestAnimationFrame(look);
    const { port1, port2 } = new MessageChannel(); // a message comes after the frame
    port1.onmessage = () => (globalThis.drawn = performance.now());
    port2.postMessage('');
  };
  requestAnimationFrame(look);
};
const opened = async (address, chapter, rate) => {
  const times = [];
  for (let i = 0; i < 9; ++i) {
    const browser = await launch(); // a new one: what it has kept would shorten the next opening
    const page = await browser.newPage({ viewport: sizes.laptop });
    await page.addInitScript(firstBoard, chapter);
    const session = await page.context().newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate });
    await page.goto(address);
    await until(page, () => globalThis.drawn > 0);
    times.push(Math.round(await page.evaluate('drawn')));
    await browser.close();
  }
  times.sort((a, b) => a - b);
  console.log(`${address.replace(/.*\//, '')}, processor slowed ${rate} times: first board drawn after ${times[4]} ms, ${times[0]} to ${times[8]} ms`);
};
const folder = path.join(pictures, 'measured-site');
execFileSync(program, ['build', path.join(root, 'lessons/first-evenings'), '--output', folder, '--make', 'site']);
const server = createServer((request, answer) => {
  const name = path.basename(request.url);
  answer.setHeader('Content-Type', { '.html': 'text/html', '.css': 'text/css', '.js': 'text/javascript' }[path.extname(name)] ?? 'application/wasm');
  createReadStream(path.join(folder, 'site', name)).on('error', () => answer.destroy()).pipe(answer);
}).listen(0, '127.0.0.1');
await once(server, 'listening');
for (const rate of [1, 4]) {
  for (const chapter of ['02-setting-up', '09-coming-in', '24-when-to-double']) {
    await opened(`${pathToFileURL(course).href}#${chapter}`, chapter, rate);
    await opened(`http://127.0.0.1:${server.address().port}/chapter-${chapter}.html`, chapter, rate);
  }
}
server.close();
const browser = await launch();
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
