// The engine in WebAssembly answers exactly what the native one answers: plays, turns, chances,
// evaluations to the last bit, cube decisions, pictures, rulings, and rankings of one in twenty. The ordinary run compares 1,000
// positions of five kinds; `npm run parity` compares 100,000.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { test } from 'node:test';
import { build, root } from './paths.mjs';
import { start } from './engine.mjs';

const count = Number(process.env.POINTWRIGHT_PARITY ?? 1000);
const seed = process.env.POINTWRIGHT_PARITY_SEED ?? '1';

test(`${count} positions give the same answers in both builds`, async () => {
  const ask = start(readFileSync(path.join(root, 'build/wasm/engine.wasm')));
  const native = spawn(path.join(build, 'tests/page/parity'), [String(count), seed]);
  const done = new Promise((resolve) => native.on('close', resolve));
  let compared = 0;
  for await (const line of createInterface({ input: native.stdout })) {
    const [position, play, digest] = line.split('\t');
    const hash = createHash('sha256');
    for (const verb of ['plays', 'turn', 'chances', 'evaluation', 'cube', 'picture'])
      hash.update(ask(`${verb}\nposition ${position}`));
    if (compared % 20 === 0) hash.update(ask(`ranking\nposition ${position}`));
    hash.update(ask(`rule\nposition ${position}\nplay ${play}`));
    assert.equal(hash.digest('hex'), digest, `${position}, ${play}`);
    ++compared;
  }
  assert.equal(await done, 0);
  assert.equal(compared, count);
});
