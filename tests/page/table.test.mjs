// Tries the table: each way to move a checker, the referee, dice of both kinds, the cube, a whole
// match against the program, and that nothing is lost.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { build, drag, launch, objections, open, pictures, place, root, sizes, until } from './browser.mjs';
import { start } from './engine.mjs';

const file = process.env.TABLE ?? path.join(pictures, 'table.html');
const url = pathToFileURL(file).href;
let browser;
before(async () => {
  if (!process.env.TABLE) execFileSync(path.join(build, 'app/pointwright'), ['table', '--output', file]);
  browser = await launch();
});
after(() => browser?.close());

const withTable = async (options, use) => {
  const opened = await open(browser, { url, hash: '#en', reducedMotion: 'reduce', ...options });
  try {
    // A table that keeps no game yet asks what is to be played.
    await opened.page.getByRole('dialog').waitFor();
    await use(opened.page, opened);
    assert.deepEqual(await opened.page.evaluate('violations'), []);
    assert.deepEqual(opened.trouble, []);
  } finally {
    await opened.close();
  }
};

const status = (page, words) => page.locator('.turn-status').getByText(words).waitFor();
const press = (page, name) => page.getByRole('button', { name, exact: true }).click();
const kept = (page) => page.evaluate(() => JSON.parse(localStorage['pointwright:table']));

/** Fills the form and begins. */
const begin = async (page, choices = {}) => {
  const form = page.getByRole('dialog');
  if (!(await form.isVisible())) await press(page, 'New game');
  for (const [label, value] of Object.entries(choices)) {
    const field = form.getByLabel(label, { exact: true });
    if (typeof value === 'boolean') await field.setChecked(value);
    else if ((await field.evaluate((each) => each.tagName)) === 'SELECT') await field.selectOption({ label: value });
    else await field.fill(value);
  }
  await press(page, 'Begin');
  await form.waitFor({ state: 'detached' });
};
const real = { Dice: 'real dice, entered by hand' };
const dice = async (page, a, b) => {
  await page.locator(`.die[data-face="${a}"]`).click();
  await page.locator(`.die[data-face="${b}"]`).click();
};
const write = async (page, play) => {
  await page.getByLabel('Or write the play').fill(play);
  await page.keyboard.press('Enter');
};

describe('two people at one screen', () => {
  test('opening, every way to move, refusals, taking back, the cube, undo, reload', () =>
    withTable({}, async (page) => {
      await begin(page, { ...real, 'Name of light': 'Ivory', 'Name of dark': 'Walnut', 'Match to': '5' });
      await status(page, 'Each side throws one die');
      await dice(page, 4, 4);
      await status(page, 'A tie: both throw again.');
      await dice(page, 3, 1);
      await status(page, 'Ivory to play 3-1.');
      // By tapping; what the dice do not allow is refused and nothing moves.
      await place(page, '13').click();
      await place(page, '7').click();
      await page.getByRole('alert').getByText('13/7 moves 6 pips').waitFor();
      await place(page, '8').click();
      await place(page, '5').click();
      await status(page, 'still to play: 1');
      // Reload in the middle of a turn: nothing is lost.
      await page.reload();
      await status(page, 'still to play: 1');
      await press(page, 'Take back');
      await status(page, 'Ivory to play 3-1.');
      // By dragging.
      await drag(page, place(page, '8'), place(page, '5'));
      await status(page, 'still to play: 1');
      await drag(page, place(page, '6'), place(page, '5'));
      await status(page, 'Ivory has played 8/5 6/5.');
      await press(page, 'Lift the dice');
      await status(page, 'Ivory: 3-1: 8/5 6/5. Walnut to roll.');
      // Dice by two keys, a play by keyboard and one that is written.
      await page.keyboard.press('6');
      await page.keyboard.press('4');
      await status(page, 'Walnut to play 6-4.');
      await place(page, '24').focus();
      await page.keyboard.press('Enter');
      assert.match(await place(page, '14').getAttribute('aria-label'), /can go here/);
      await place(page, '14').focus();
      await page.keyboard.press('Enter');
      await status(page, 'Walnut has played 24/14.');
      await page.keyboard.press('b');
      await status(page, 'still to play: 4');
      await write(page, '24/18 13/9');
      await status(page, 'Walnut has played 24/18 13/9.');
      await page.keyboard.press('l');
      await status(page, 'Ivory to roll.');
      // The cube.
      await press(page, 'Double to 2');
      await status(page, 'Ivory doubles to 2. Walnut takes or drops.');
      await press(page, 'Take');
      await status(page, 'Ivory to roll.');
      assert.match(await page.locator('.score').textContent(), /Cube 2 with Walnut/);
      assert.equal(await page.getByRole('button', { name: 'Double to 4' }).count(), 0);
      await dice(page, 6, 5);
      await status(page, 'Ivory to play 6-5.');
      // Undo goes back across turns, the cube included.
      await press(page, 'Undo the last turn');
      await status(page, 'Walnut to play 6-4.');
      assert.match(await page.locator('.score').textContent(), /Cube in the middle at 1/);
      await press(page, 'Undo the last turn');
      await status(page, 'Ivory to play 3-1.');
    }));

  test('the referee can wait until the dice are lifted, as at a real table', () =>
    withTable({}, async (page) => {
      await begin(page, { ...real, 'The referee speaks': 'when the dice are lifted' });
      await dice(page, 6, 5);
      await status(page, 'Light to play 6-5.');
      await drag(page, place(page, '13'), place(page, '4'));
      await until(page, () => JSON.parse(localStorage['pointwright:table']).record.at(-1) === 'move 13/4');
      await press(page, 'Lift the dice');
      const refusal = page.getByRole('alert');
      await refusal.getByText(/13\/4 moves 9 pips/).waitFor();
      assert.match(await refusal.textContent(), /Allowed, for example:/);
      await press(page, 'Take back');
      await write(page, '24/13');
      await status(page, 'Light has played 24/13.');
      await press(page, 'Lift the dice');
      await status(page, 'Dark to roll.');
    }));

  test('a match goes on to the Crawford game, in which nobody doubles', () =>
    withTable({}, async (page) => {
      await begin(page, { ...real, 'Match to': '3' });
      for (let i = 0; i < 2; ++i) {
        await dice(page, 6, 1);
        await write(page, '13/7 8/7');
        await status(page, 'Light has played 13/7 8/7.');
        await press(page, 'Lift the dice');
        await status(page, 'Dark to roll.');
        if (i === 1) break;
        await dice(page, 5, 4);
        await write(page, '24/20 13/8');
        await press(page, 'Lift the dice');
        await press(page, 'Double to 2');
        await press(page, 'Take');
        await dice(page, 2, 1);
        await write(page, '13/11 6/5');
        await press(page, 'Lift the dice');
        await press(page, 'Double to 4');
        await press(page, 'Drop');
        await status(page, 'Dark wins');
        await press(page, 'Next game');
      }
      assert.match(await page.locator('.score').textContent(), /Light 0, Dark 2; match to 3\. Crawford game/);
      assert.equal(await page.getByRole('button', { name: /^Double/ }).count(), 0);
    }));
});

describe('by keyboard and by ear alone', () => {
  test('a game is agreed on and a turn is played and understood without a pointer or the board', () =>
    withTable({}, async (page) => {
      const key = (name) => page.keyboard.press(name);
      const focused = () => page.evaluate(() => document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent);
      // Tab goes through the form; its first field has the focus already.
      for (let i = 0; i < 40 && (await focused()) !== 'Begin'; ++i) {
        if (await page.evaluate(() => document.activeElement.name === 'dice')) await key('ArrowDown');
        await key('Tab');
      }
      await key('Enter');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
      await page.locator('.die').first().waitFor();
      await key('3');
      await key('1');
      await status(page, 'Light to play 3-1.');
      const onBoard = () => page.evaluate(() => document.activeElement.matches('.place'));
      for (let i = 0; i < 40 && !(await onBoard()); ++i) await key('Tab');
      /** Goes one way with an arrow key until the place under the focus is called so. */
      const goTo = async (name, way) => {
        for (let i = 0; i < 14 && !(await focused()).startsWith(name); ++i) await key(way);
        assert.match(await focused(), new RegExp(`^${name}`));
      };
      await goTo('1-point: 2 Dark', 'ArrowDown');
      await goTo('8-point: 3 Light', 'ArrowLeft');
      await key('Enter');
      await status(page, 'Picked up from 8.');
      await goTo('5-point: empty, can go here', 'ArrowRight');
      await key('Enter');
      await status(page, 'still to play: 1');
      await goTo('6-point: 5 Light', 'ArrowLeft');
      await key('Enter');
      await goTo('5-point: 1 Light, can go here', 'ArrowRight');
      await key('Enter');
      await status(page, 'Light has played 8/5 6/5.');
      assert.equal(await page.locator('.turn-status').getAttribute('role'), 'status');
      await key('l');
      await status(page, 'Dark to roll.');
      assert.match(await page.locator('.play-board .spoken').textContent(), /2 checkers on the 5-point/);
    }));
});

describe('dice that can be checked', () => {
  const seal = 'e5bd0801d10e5965354604c20443ddf47fdfc375115151277a525467ad4816a3'; // printf evening | sha256sum
  const inForm = async (use) =>
    withTable({}, async (page) => {
      await press(page, 'Not now');
      await page.getByText('Check other dice').click();
      const form = page.locator('.dice-check');
      const fill = async (label, value) => form.getByLabel(label).fill(value);
      const verdict = async (words) => {
        await press(page, 'Check');
        await form.getByRole('status').getByText(words).waitFor();
      };
      await use({ fill, verdict, form });
    });

  test('seal, secret and throws are typed in; the verb says the same', () =>
    inForm(async ({ fill, verdict, form }) => {
      await verdict('Write the secret first.');
      await fill('Secret', 'evening');
      await fill('Seal', seal.slice(1));
      await verdict('The seal is not complete');
      await fill('Seal', seal);
      await verdict('No throws were given.');
      await fill('The throws', '5-2 4-7');
      await verdict('“4-7” is no throw');
      const verb = (...throws) =>
        spawnSync(path.join(build, 'app/pointwright'), ['dice', 'evening', '--seal', seal, '--json', ...throws], { encoding: 'utf8' });
      for (const [throws, said] of [
        [['5-2', '4-2'], 'All 2 throws follow from the secret.'],
        [['2-5', '?', '3-1'], 'All 2 throws follow from the secret.'],
        [['5-2', '3-2', '3-1'], '1 of 3 throws does not follow from the secret.'],
      ]) {
        await fill('The throws', throws.join(' '));
        await verdict(said);
        await form.getByText('The secret fits the seal.').waitFor();
        const { stdout, status: exit } = verb(...throws);
        assert.equal(exit, said.startsWith('All') ? 0 : 1);
        const made = JSON.parse(stdout).throws.map(({ dice: [a, b] }) => `${a}-${b}`);
        const shown = await form.locator('li').allTextContents();
        assert.deepEqual(shown.map((line) => /: (\d-\d)/.exec(line)[1]), made);
      }
      await form.getByText('2: 4-2, but noted was 3-2').waitFor();
      await fill('Secret', 'Evening');
      await verdict('The secret does not fit the seal.');
    }));

  test('the record of a game fills the form in', () =>
    inForm(async ({ fill, verdict, form }) => {
      const ask = start(readFileSync(path.join(root, 'build/wasm/engine.wasm')));
      const dice = (number) => JSON.parse(ask(`sealed\nseed evening\nwords for Ann\nnumber ${number}`)).dice.join(' ');
      const record = (second) =>
        ['# Pointwright table', 'names Light | Dark', `sealed ${seal}`, 'words for Ann', 'seed evening', `opening ${dice(0)}`, 'move 8/5 6/5', 'lift', `throw ${second}`, ''].join('\n');
      await fill('The throws', record(dice(1)));
      assert.equal(await form.getByLabel('Words of the players').inputValue(), 'for Ann');
      assert.equal(await form.getByLabel('Secret').inputValue(), 'evening');
      await verdict('All 2 throws follow from the secret.');
      await form.getByText('The secret fits the seal.').waitFor();
      const [a, b] = dice(1).split(' ');
      await fill('The throws', record(`${a} ${(Number(b) % 6) + 1}`));
      await verdict('1 of 2 throws does not follow');
    }));
});

describe('one against the program', () => {
  test('a whole match with dice that hold when they are checked', { timeout: 400_000 }, () =>
    withTable({}, async (page) => {
      const ask = start(readFileSync(path.join(root, 'build/wasm/engine.wasm')));
      await begin(page, { 'Who plays': 'I play light, the program the other side', 'Match to': '1', 'Words of your own': 'a rainy evening' });
      assert.match(await page.locator('.digest').textContent(), /Sealed: [0-9a-f]{64}/);
      // A second program, outside the page, says what to play; everything is done on the page.
      for (let steps = 0; steps < 3000; ++steps) {
        const { record } = await kept(page);
        const table = JSON.parse(ask(`table\n${record.join('\n')}`));
        if (table.phase === 'over') break;
        if (table.phase !== 'opening' && table.turn !== 'light') {
          await page.waitForTimeout(50); // the program plays
          continue;
        }
        if (table.phase !== 'to-play') await press(page, 'Roll');
        else if (table.moves) await press(page, 'Lift the dice');
        else {
          const [play] = JSON.parse(ask(`decision\n${record.join('\n')}`)).events;
          if (play === 'lift') await press(page, 'Lift the dice');
          else await write(page, play.slice(5));
        }
        await until(page, (before) => JSON.parse(localStorage['pointwright:table']).record.length > before, record.length);
      }
      await status(page, 'The match is over.');
      await page.locator('.fair summary').click();
      await press(page, 'Check the dice');
      await page.getByText(/All \d+ throws follow from the secret, and the secret fits the seal/).waitFor();
      await page.screenshot({ path: `${pictures}/table-over.png` });
    }));

  test('the program throws real dice that a person enters, and a reload finds it still waiting', () =>
    withTable({}, async (page) => {
      await begin(page, { ...real, 'Who plays': 'I play dark, the program the other side' });
      await dice(page, 6, 1);
      await status(page, 'Dark to roll.');
      assert.match(await page.locator('.sheet').textContent(), /Program 6-1: 13\/7 8\/7/);
      await dice(page, 2, 1);
      await write(page, '13/11 6/5');
      await press(page, 'Lift the dice');
      await status(page, /Program to roll\.|takes or drops/);
      await page.reload();
      await status(page, /Program to roll\.|takes or drops/);
    }));
});

describe('keeping a game', () => {
  test('a record is saved and opened again; one that breaks the rules is refused', () =>
    withTable({ acceptDownloads: true }, async (page) => {
      await begin(page, { ...real, 'Name of light': 'Ivory' });
      await dice(page, 3, 1);
      await write(page, '8/5 6/5');
      await press(page, 'Lift the dice');
      await status(page, 'Dark to roll.');
      const saving = page.waitForEvent('download');
      await press(page, 'Save the record');
      const saved = readFileSync(await (await saving).path(), 'utf8');
      assert.match(saved, /names Ivory \| Dark\nmatch 5\nopening 3 1\nmove 8\/5 6\/5\nlift\n/);
      await begin(page, {});
      const input = page.locator('input[type=file]');
      await input.setInputFiles({ name: 't.txt', mimeType: 'text/plain', buffer: Buffer.from(saved) });
      await status(page, 'Ivory: 3-1: 8/5 6/5. Dark to roll.');
      await input.setInputFiles({ name: 't.txt', mimeType: 'text/plain', buffer: Buffer.from('opening 3 1\nmove 8/1\nlift\n') });
      await page.getByRole('alert').getByText(/cannot be followed at line 3: 8\/1 moves 7 pips/).waitFor();
      await status(page, 'Dark to roll.');
    }));

  test('two tabs show the same game, and the back button loses nothing', () =>
    withTable({}, async (page) => {
      await begin(page, real);
      const second = await page.context().newPage();
      await second.goto(url + '#en');
      await second.locator('.turn-status').getByText('Each side throws one die').waitFor();
      await dice(page, 3, 1);
      await second.locator('.turn-status').getByText('Light to play 3-1.').waitFor();
      await second.getByText('went on in another tab').waitFor();
      await second.close();
      await page.goto('about:blank');
      await page.goBack();
      await status(page, 'Light to play 3-1.');
    }));
});

describe('every player', () => {
  test('another language has every word of the interface', () =>
    withTable({ hash: '#de' }, async (page) => {
      const form = page.getByRole('dialog');
      await form.getByLabel('Würfel', { exact: true }).selectOption({ label: 'echte Würfel, von Hand eingegeben' });
      await form.getByRole('button', { name: 'Beginnen' }).click();
      await dice(page, 3, 1);
      await status(page, 'Hell zieht 3-1.');
      assert.equal(await page.locator('html').getAttribute('lang'), 'de');
      assert.match(await place(page, '13').getAttribute('aria-label'), /^Punkt 13: 5 Hell$/);
      await page.getByText('Fragen', { exact: true }).click();
      await page.getByRole('button', { name: 'Was darf ich ziehen?' }).click();
      await page.getByText('Hell hat mit 3-1 16 erlaubte Züge:').waitFor();
    }));

  test('house rules are kept: without the cube nobody doubles; automatic doubles turn it', () =>
    withTable({}, async (page) => {
      await begin(page, { ...real, 'Match to': 'no match: game by game, for points', 'A tie in the opening doubles the cube': true });
      await dice(page, 5, 5);
      await page.locator('.score').getByText('Cube in the middle at 2').waitFor();
      await begin(page, { ...real, 'The cube is used': false });
      await dice(page, 3, 1);
      await write(page, '8/5 6/5');
      await press(page, 'Lift the dice');
      await status(page, 'Dark to roll.');
      assert.equal(await page.getByRole('button', { name: /^Double/ }).count(), 0);
    }));

  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      test(`no accessibility violation, and nothing cut off, at ${size} size, ${colorScheme}`, () =>
        withTable({ viewport, colorScheme }, async (page) => {
          const scan = async (name) => {
            await page.screenshot({ path: `${pictures}/table-${name}-${size}-${colorScheme}.png` });
            assert.deepEqual(await objections(page), [], name);
            assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width, name);
          };
          await page.getByRole('dialog').waitFor();
          await scan('form');
          await begin(page, real);
          await dice(page, 3, 1);
          await status(page, 'Light to play 3-1.');
          await place(page, '13').click();
          await place(page, '3').click();
          await page.getByText('Refused.').waitFor();
          await place(page, '8').click();
          await page.getByText('Ask', { exact: true }).click();
          await page.getByRole('button', { name: 'What should I play?' }).click();
          await page.getByText('looks best').waitFor();
          await scan('play');
          await page.keyboard.press('Escape');
          await press(page, 'Large board');
          await scan('large');
        }));
    }
  }
});
