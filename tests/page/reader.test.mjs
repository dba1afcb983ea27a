// Tries the live page of the sample course: boards that can be taken over, the referee, questions
// answered on the board, progress.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, test } from 'node:test';
import { drag, launch, objections, open, pictures, place, sizes, until } from './browser.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const withPage = async (options, use) => {
  const opened = await open(browser, { reducedMotion: 'reduce', ...options });
  try {
    await use(opened.page);
    assert.deepEqual(await opened.page.evaluate('violations'), []);
    assert.deepEqual(opened.trouble, []);
  } finally {
    await opened.close();
  }
};

const scene = (page) => page.locator('#coming-in--three-doors');
const takeOver = async (page) => {
  await scene(page).getByRole('button', { name: 'Try it yourself' }).click();
  await scene(page).locator('.turn-status').getByText('Linen to play 4-2.').waitFor();
  return scene(page);
};
const status = (at, words) => at.locator('.turn-status').getByText(words).waitFor();

describe('a board that was taken over', () => {
  test('a play by tapping: from, then to', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = await takeOver(page);
      await place(board, 'bar').click();
      await place(board, '21').click();
      await status(board, 'still to play: 2');
      await place(board, '13').click();
      await place(board, '11').click();
      await status(board, 'Linen has played bar/21 13/11.');
      await board.getByRole('button', { name: 'Lift the dice' }).click();
      await status(board, 'Linen played bar/21 13/11. Denim to roll.');
    }));

  test('a play by dragging, over two dice at once', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = await takeOver(page);
      await drag(page, place(board, 'bar'), place(board, '23'));
      await status(board, 'still to play: 4');
      await board.getByRole('button', { name: 'Take back' }).click();
      await status(board, 'Linen to play 4-2.');
      await drag(page, place(board, '13'), place(board, 'off'));
      await board.getByText('Refused.').waitFor();
    }));

  test('a play by keyboard alone', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const button = scene(page).getByRole('button', { name: 'Try it yourself' });
      await button.focus();
      await page.keyboard.press('Enter');
      const board = scene(page);
      await status(board, 'Linen to play 4-2.');
      const name = () => page.evaluate(() => document.activeElement.getAttribute('aria-label'));
      // Only one place is in the order of tabs; the arrows lead to the others.
      assert.equal(await board.locator('.place[tabindex="0"]').count(), 1);
      for (let i = 0; i < 12 && !/^Bar: 1 Linen/.test(await name()); ++i) await page.keyboard.press('ArrowLeft');
      assert.match(await name(), /^Bar: 1 Linen/);
      await page.keyboard.press('Enter');
      await status(board, 'Picked up from bar.');
      assert.match(await place(board, '21').getAttribute('aria-label'), /21-point: empty, can go here/);
      assert.doesNotMatch(await place(board, '20').getAttribute('aria-label'), /can go here/);
      await page.keyboard.press('Escape');
      await status(board, 'Put back.');
      await page.keyboard.press('Enter');
      await place(board, '21').focus();
      await page.keyboard.press('Enter');
      await status(board, 'still to play: 2');
      await board.getByLabel('Or write the play').fill('bar/23 13/9');
      await page.keyboard.press('Enter');
      await status(board, 'Linen has played bar/23 13/9.');
    }));

  test('the referee refuses in place, with the reason, the rule and what is allowed', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = await takeOver(page);
      await place(board, '13').click();
      await place(board, '9').click();
      const refusal = board.getByRole('alert');
      await refusal.getByText('Linen has one checker on the bar, which must come in before 13/9 is played.').waitFor();
      assert.match(await refusal.textContent(), /Rule: .*Allowed, for example: bar\//);
      // Nothing has moved.
      assert.equal(await place(board, '13').getAttribute('aria-label'), '13-point: 2 Linen');
      await place(board, 'bar').click();
      await place(board, '22').click();
      await refusal.getByText('bar/22 moves 3 pips').waitFor();
      await board.getByLabel('Or write the play').fill('nonsense');
      await page.keyboard.press('Enter');
      await refusal.getByText(/nonsense/).waitFor();
      await place(board, 'bar').click();
      await place(board, '21').click();
      await status(board, 'still to play: 2');
      assert.equal(await refusal.textContent(), '');
    }));

  test('goes on with dice that the reader chooses or throws, and gives the lesson back as it was', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = await takeOver(page);
      await board.getByLabel('Or write the play').fill('bar/21 13/11');
      await page.keyboard.press('Enter');
      await board.getByRole('button', { name: 'Lift the dice' }).click();
      await status(board, 'Denim to roll.');
      await board.locator('.die[data-face="6"]').click();
      await board.locator('.die[data-face="5"]').click();
      await status(board, 'Denim to play 6-5.');
      await board.getByRole('button', { name: 'Start again' }).click();
      await status(board, 'Linen to play 4-2.');
      await board.getByRole('button', { name: 'Back to the lesson' }).click();
      assert.equal(await board.locator('.play-board').count(), 0);
      assert.ok(await board.locator('svg.board').isVisible());
      assert.ok(await board.locator('.controls .next').isVisible());
    }));

  test('begins where the turn began that the scene is showing', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = scene(page);
      await board.locator('.next').focus();
      for (let i = 0; i < 3; ++i) await page.keyboard.press('ArrowRight');
      await takeOver(page);
      assert.match(await place(board, 'bar').getAttribute('aria-label'), /1 Linen/);
      await board.getByRole('button', { name: 'Back to the lesson' }).click();
      await board.locator('.next').press('End');
      await board.getByRole('button', { name: 'Try it yourself' }).click();
      await status(board, 'Denim to roll.');
    }));

  test('questions are answered beside it', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const board = await takeOver(page);
      await board.getByText('Ask', { exact: true }).click();
      await board.getByRole('button', { name: 'What may I play?' }).click();
      await board.getByText('Linen has 4 legal plays with 4-2:').waitFor();
      await board.getByRole('button', { name: 'Who is ahead?' }).click();
      await board.getByText(/is ahead in the race by \d+ pips/).waitFor();
      await board.getByRole('button', { name: 'What should I play?' }).click();
      await board.getByText(/looks best: it wins about \d+%/).waitFor();
      await board.getByText('searched 1 roll ahead').waitFor();
      // Before a roll the cube can be asked about.
      await place(board, 'bar').click();
      await place(board, '21').click();
      await place(board, '13').click();
      await place(board, '11').click();
      await board.getByRole('button', { name: 'Lift the dice' }).click();
      await board.getByRole('button', { name: 'Should I double?' }).click();
      await board.getByText(/^Denim (should|had better|cannot)/).waitFor();
      await board.getByText(/^Worth to Denim, in units of the cube: waiting −?\d\.\d\d/).waitFor();
      await board.getByRole('button', { name: 'Should I take?' }).click();
      await board.getByText(/^Doubled now, Linen should (take|drop)/).waitFor();
      await board.getByText('by the model of the cube').waitFor();
    }));

  test('checkers slide, unless the reader wants no motion', async () => {
    for (const [reducedMotion, slides] of [['no-preference', true], ['reduce', false]]) {
      await withPage({ hash: '#coming-in', reducedMotion }, async (page) => {
        const board = await takeOver(page);
        await page.evaluate(() => {
          globalThis.slid = 0;
          const animate = Element.prototype.animate;
          Element.prototype.animate = function (...all) {
            ++globalThis.slid;
            return animate.apply(this, all);
          };
        });
        await place(board, 'bar').click();
        await place(board, '21').click();
        await status(board, 'still to play: 2');
        assert.equal((await page.evaluate('slid')) > 0, slides);
      });
    }
  });
});

describe('a question on the board', () => {
  test('is answered by making the play; what is not allowed is refused at once', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const question = page.locator('#coming-in--question-come-in');
      await question.scrollIntoViewIfNeeded();
      await question.locator('.play-board').waitFor();
      await place(question, '13').click();
      await place(question, '9').click();
      await question.getByRole('alert').getByText('Refused.').waitFor();
      await place(question, 'bar').click();
      await place(question, '23').click();
      await until(page, () => document.querySelector('#coming-in--question-come-in input').value === 'bar/23');
      await place(question, '13').click();
      await place(question, '9').click();
      await until(page, () => document.querySelector('#coming-in--question-come-in input').value === 'bar/23 13/9');
      await question.getByRole('button', { name: 'Check' }).click();
      assert.match(await question.locator('.verdict').textContent(), /^Right\./);
      await question.getByRole('button', { name: 'Start the turn again' }).click();
      await until(page, () => document.querySelector('#coming-in--question-come-in input').value === '');
    }));

  test('choices stand in an order of their own, the same at every visit', () =>
    withPage({ hash: '#the-board' }, async (page) => {
      const order = () => page.locator('#the-board--question-how-many input').evaluateAll((all) => all.map(({ value }) => value).join(''));
      const orders = new Set();
      for (let i = 0; i < 5; ++i) {
        await page.evaluate(() => localStorage.clear());
        await page.reload();
        const first = await order();
        orders.add(first);
        await page.reload();
        assert.equal(await order(), first);
      }
      assert.ok(orders.size > 1, [...orders].join(' '));
    }));
});

describe('progress', () => {
  const answer = async (page, text) => {
    await page.locator('#the-board--question-pips input').fill(text);
    await page.keyboard.press('Enter');
  };

  test('is kept in the browser, shown in the contents, and can be forgotten', () =>
    withPage({ hash: '#the-board' }, async (page) => {
      await answer(page, '3');
      await answer(page, '167');
      await page.locator('.to-contents').click();
      const mark = page.locator('.contents li').first().locator('.progress-mark');
      assert.equal(await mark.textContent(), '1 of 2 answered');
      await page.reload();
      assert.equal(await mark.textContent(), '1 of 2 answered');
      page.once('dialog', (dialog) => dialog.accept());
      await page.getByRole('button', { name: 'Forget' }).click();
      assert.equal(await mark.textContent(), '');
    }));

  test('two tabs at once keep what each has answered', async () => {
    const opened = await open(browser, { hash: '#the-board' });
    const second = await opened.page.context().newPage();
    await second.goto(opened.page.url());
    await answer(opened.page, '167');
    await second.locator('#the-board--question-how-many').getByText('Twenty-four.').first().click();
    await second.locator('#the-board--question-how-many button[type=submit]').click();
    for (const page of [opened.page, second]) {
      await page.locator('.to-contents').click();
      await page.locator('.contents li').first().getByText('2 of 2 answered').waitFor();
    }
    await opened.close();
  });

  test('can be saved to a file and opened again; another file is refused', () =>
    withPage({ hash: '#the-board', acceptDownloads: true }, async (page) => {
      await answer(page, '167');
      await page.locator('.to-contents').click();
      const saved = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Save to a file' }).click();
      const file = await (await saved).path();
      assert.equal(JSON.parse(readFileSync(file, 'utf8')).answers['the-board--question-pips'].right, true);
      page.once('dialog', (dialog) => dialog.accept());
      await page.getByRole('button', { name: 'Forget' }).click();
      const mark = page.locator('.contents li').first().locator('.progress-mark');
      assert.equal(await mark.textContent(), '');
      const input = page.locator('.progress input[type=file]');
      await input.setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('{"pointwright":"progress"}') });
      await page.getByText('That file holds no progress of this course.').waitFor();
      await input.setInputFiles({ name: 'y.json', mimeType: 'application/json', buffer: readFileSync(file) });
      await mark.getByText('1 of 2 answered').waitFor();
    }));
});

describe('accessibility', () => {
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      test(`no violation with a board taken over, at ${size} size, ${colorScheme}`, () =>
        withPage({ viewport, colorScheme, hash: '#coming-in' }, async (page) => {
          const board = await takeOver(page);
          await place(board, '13').click();
          await place(board, '9').click();
          await board.getByText('Refused.').waitFor();
          await place(board, 'bar').click();
          await board.getByText('Ask', { exact: true }).click();
          await board.getByRole('button', { name: 'What may I play?' }).click();
          await board.getByText('Linen has 4 legal plays').waitFor();
          await board.scrollIntoViewIfNeeded();
          await page.screenshot({ path: `${pictures}/taken-over-${size}-${colorScheme}.png` });
          const question = page.locator('#coming-in--question-come-in');
          await question.scrollIntoViewIfNeeded();
          await question.locator('.play-board').waitFor();
          await page.screenshot({ path: `${pictures}/play-question-${size}-${colorScheme}.png` });
          assert.deepEqual(await objections(page), []);
          assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
        }));
    }
  }
});
