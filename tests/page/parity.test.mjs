// The engine in WebAssembly answers exactly what the native one answers: plays, turns, chances,
// evaluations to the last bit, cube decisions, pictures, rulings, and rankings of some. The ordinary
// run compares 1,000 positions of five kinds; `npm run parity` compares 100,000. A part of them is
// asked in Chromium as well, in the worker of a page.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { test } from 'node:test';
import { build, launch, open, root } from './browser.mjs';
import { start } from './engine.mjs';

const count = Number(process.env.POINTWRIGHT_PARITY ?? 1000);
const seed = process.env.POINTWRIGHT_PARITY_SEED ?? '1';
const inChromium = Math.ceil(count / 10);

/** What the native engine was asked, and the digest of its answers, for so many positions. */
async function* native(number) {
  const program = spawn(path.join(build, 'tests/page/parity'), [String(number), seed]);
  const done = new Promise((resolve) => program.on('close', resolve));
  let given = 0;
  for await (const line of createInterface({ input: program.stdout })) {
    const [position, play, ranked, digest] = line.split('\t');
    const about = `\nposition ${position}`;
    const verbs = ['plays', 'turn', 'chances', 'evaluation', 'cube', 'picture', ...(ranked ? ['ranking'] : [])];
    yield { about: `${position}, ${play}`, digest, questions: [...verbs.map((verb) => verb + about), `rule${about}\nplay ${play}`] };
    ++given;
  }
  assert.equal(await done, 0);
  assert.equal(given, number);
}

const digestOf = (answers) => {
  const hash = createHash('sha256');
  for (const answer of answers) hash.update(answer);
  return hash.digest('hex');
};

test(`${count} positions give the same answers in both builds`, async () => {
  const ask = start(readFileSync(path.join(root, 'build/wasm/engine.wasm')));
  for await (const { about, digest, questions } of native(count))
    assert.equal(digestOf(questions.map(ask)), digest, about);
});

test(`${inChromium} of them in the worker of a page`, async () => {
  const browser = await launch();
  const { page, trouble, close } = await open(browser);
  await page.evaluate(() => {
    const text = (id) => document.getElementById(id).textContent.trim();
    const url = URL.createObjectURL(new Blob([text('pw-worker')], { type: 'text/javascript' }));
    const worker = new Worker(url);
    worker.postMessage({ packed: text('pw-engine') });
    const waiting = [];
    worker.onmessage = ({ data }) => waiting.shift()(data);
    const ask = (question) =>
      new Promise((resolve) => {
        waiting.push(resolve);
        worker.postMessage(question);
      });
    globalThis.askAll = (questions) => Promise.all(questions.map(ask));
  });
  let batch = [];
  const compare = async () => {
    const answers = await page.evaluate((all) => globalThis.askAll(all), batch.flatMap(({ questions }) => questions));
    for (const { about, digest, questions } of batch)
      assert.equal(digestOf(answers.splice(0, questions.length)), digest, about);
    batch = [];
  };
  for await (const each of native(inChromium)) {
    batch.push(each);
    if (batch.length === 50) await compare();
  }
  await compare();
  assert.deepEqual(trouble, []);
  await close();
  await browser.close();
});
