// Tries the plain page of the sample course, without an engine, as a learner would: by eye, by keyboard, by ear, without
// scripts, from disk with the network cut.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { launch, objections, open, pictures, plainPage, sizes } from './browser.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const withPage = async (options, use) => {
  const opened = await open(browser, { url: plainPage, ...options });
  try {
    await use(opened.page);
    if (options.javaScriptEnabled !== false)
      assert.deepEqual(await opened.page.evaluate('violations'), []);
    assert.deepEqual(opened.trouble, []);
  } finally {
    await opened.close();
  }
};

describe('accessibility', () => {
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      test(`no violation at ${size} size, ${colorScheme}`, () =>
        withPage({ viewport, colorScheme, reducedMotion: 'reduce' }, async (page) => {
          for (const chapter of ['contents', 'the-board', 'coming-in', 'the-cube']) {
            await page.goto(`${page.url().split('#')[0]}#${chapter}`);
            for (const details of await page.locator(`#${chapter} details`).all())
              await details.evaluate((each) => (each.open = true));
            const next = page.locator(`#${chapter} .next`);
            if (await next.count()) for (let i = 0; i < 2; ++i) await next.click();
            await page.screenshot({ path: `${pictures}/${chapter}-${size}-${colorScheme}.png` });
            assert.deepEqual(await objections(page), [], chapter);
          }
        }));
    }
  }
});

describe('chapters', () => {
  test('the page opens at the chapter that the address names', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      assert.equal(await page.locator('.chapter:visible').count(), 1);
      assert.ok(await page.locator('#coming-in').isVisible());
      assert.equal(await page.title(), 'Coming in from the bar – Two evenings at the board');
    }));

  test('the page opens at a board inside a chapter', () =>
    withPage({ hash: '#coming-in--three-doors' }, async (page) => {
      assert.ok(await page.locator('#coming-in').isVisible());
      assert.ok(await page.locator('#coming-in--three-doors').isVisible());
    }));

  test('links lead through the course and back to the contents', () =>
    withPage({}, async (page) => {
      await page.locator('.contents a').first().click();
      for (const chapter of ['the-board', 'coming-in', 'the-cube']) {
        await page.locator(`#${chapter}`).waitFor();
        await page.locator(`#${chapter} [rel=next]`).click();
      }
      await page.locator('#contents').waitFor();
    }));
});

describe('going back', () => {
  test('the back button leads through the chapters that were read, and a reload stays', () =>
    withPage({}, async (page) => {
      await page.locator('.contents a').first().click();
      await page.locator('#the-board [rel=next]').click();
      await page.locator('#coming-in').waitFor();
      await page.goBack();
      await page.locator('#the-board h2').waitFor();
      assert.equal(await page.locator('.chapter:visible').count(), 1);
      await page.reload();
      assert.ok(await page.locator('#the-board h2').isVisible());
      await page.goBack();
      await page.locator('.contents').waitFor();
      assert.equal(await page.locator('.chapter:visible').count(), 0);
      await page.goForward();
      await page.locator('#the-board h2').waitFor();
    }));
});

describe('boards', () => {
  test('step by step with the keyboard alone', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const scene = page.locator('#coming-in--three-doors');
      await scene.locator('.next').focus();
      await page.keyboard.press('Enter');
      assert.equal(await scene.locator('.count').textContent(), '1 of 4');
      await page.keyboard.press('ArrowRight');
      assert.ok(await scene.locator('li.now').getByText('Not before the checker is in.').isVisible());
      assert.equal(await scene.locator('.pw-refusal-cross').count(), 2);
      assert.match(await scene.locator('[role=status]').textContent(), /^Step 2 of 4\. 13\/9 13\/11 refused Not before the checker is in\. Linen has/);
      await page.keyboard.press('End');
      assert.equal(await scene.locator('.count').textContent(), '4 of 4');
      assert.match(await scene.locator('svg desc').textContent(), /1 checker on the 21-point/);
      await page.keyboard.press('Home');
      assert.equal(await scene.locator('.count').textContent(), '0 of 4');
      assert.match(await scene.locator('svg desc').textContent(), /1 checker on the bar/);
    }));

  test('nothing jumps from step to step', () =>
    withPage({ hash: '#coming-in', viewport: sizes.phone }, async (page) => {
      const scene = page.locator('#coming-in--three-doors');
      const places = new Set();
      for (let i = 0; i < 5; ++i) {
        const box = await scene.locator('.next').boundingBox();
        const whole = await scene.boundingBox();
        places.add(JSON.stringify([box.x, Math.round(box.y - whole.y), whole.height]));
        await scene.locator('.next').press('ArrowRight');
      }
      assert.equal(places.size, 1);
    }));

  test('checkers slide, unless the reader wants no motion', async () => {
    for (const [reducedMotion, slides] of [['no-preference', 1], ['reduce', 0]]) {
      await withPage({ hash: '#coming-in', reducedMotion }, async (page) => {
        const running = await page.evaluate(() => {
          const next = document.querySelector('#coming-in--three-doors .next');
          for (let i = 0; i < 3; ++i) next.click();
          return document.getAnimations().filter((each) => each.effect.target.tagName === 'use').length;
        });
        assert.equal(running, slides);
      });
    }
  });

  test('the picture is as wide as the screen allows and never wider', async () => {
    for (const viewport of Object.values(sizes)) {
      await withPage({ hash: '#coming-in', viewport }, async (page) => {
        assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), viewport.width);
        const { width } = await page.locator('#coming-in--three-doors .board').boundingBox();
        assert.ok(width > Math.min(330, viewport.width * 0.9), `${width}`);
      });
    }
  });
});

describe('questions', () => {
  const verdict = async (page, question, text) => {
    const section = page.locator(question);
    await section.locator('input').fill(text);
    await page.keyboard.press('Enter');
    return section.locator('.verdict').textContent();
  };

  test('a play is understood however it is written', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const answer = (text) => verdict(page, '#coming-in--question-come-in', text);
      for (const right of ['bar/23 13/9', '13/9 bar/23', ' BAR/23, 13/9 ', 'bar / 23 13 / 9'])
        assert.match(await answer(right), /^Right\. The two opens on the 23/, right);
      assert.match(await answer('bar/21 13/11'), /^Allowed, but not this one\./);
      assert.match(await answer('13/11 13/9'), /^Not yet\. Not allowed\. The checker on the bar/);
      assert.match(await answer('13/7'), /not one of the legal plays of 4-2\. Allowed: bar\/23 13\/9;/);
      assert.match(await answer('hello'), /does not read as a play/);
      assert.match(await answer(''), /does not read as a play/);
      assert.match(await answer('<img src=x>'), /does not read as a play/);
    }));

  test('a play can be pointed at on the board', () =>
    withPage({ hash: '#coming-in' }, async (page) => {
      const section = page.locator('#coming-in--question-come-in');
      for (const place of ['bar', '23', '13', '13', '13', '9']) // the second 13 takes the first back
        await section.locator(`[data-place="${place}"]`).click();
      assert.equal(await section.locator('input').inputValue(), 'bar/23 13/9');
      await section.locator('button').click();
      assert.match(await section.locator('.verdict').textContent(), /^Right\./);
    }));

  test('plays that come to the same are the same; a hit on the way tells two apart', () =>
    withPage({}, async (page) => {
      const said = await page.evaluate(() => {
        const { readPlay, changeKey, meant } = document.documentElement.pointwright;
        const key = (text) => changeKey(readPlay(text));
        const answers = ['24/18*/13', '24/13'].map((text) => ({ ...readPlay(text), text }));
        const found = (text) => meant(readPlay(text), answers).map((each) => each.text);
        return {
          merged: key('24/18/13') === key('18/13 24/18') && key('24/13') === key('24/18/13'),
          counted: key('8/5(2) 6/3(2)') === key('6/3 8/5 6/3 8/5'),
          off: key('6/off(2)') === key('6/off 6/off') && key('6/off') !== key('6/1'),
          none: key('no play'),
          broken: ['24', '24/', '/5', '26/2', '6/off/2', '8/5(9)', 'x', '8-5'].map((text) => readPlay(text)),
          hit: found('24/18*/13'),
          through: found('24/18/13'),
        };
      });
      assert.deepEqual(said, {
        merged: true,
        counted: true,
        off: true,
        none: '',
        broken: Array(8).fill(null),
        hit: ['24/18*/13'],
        through: ['24/18*/13'],
      });
    }));

  test('a choice gets the reply that belongs to it', () =>
    withPage({ hash: '#the-board' }, async (page) => {
      const section = page.locator('#the-board--question-how-many');
      await section.locator('button').click();
      assert.match(await section.locator('.verdict').textContent(), /Pick one/);
      await section.getByText('Thirty.').first().click();
      await section.locator('button').click();
      assert.equal(await section.locator('.verdict').textContent(), 'Not yet. That is the number of checkers.');
      await section.getByText('Twenty-four.').first().click();
      await section.locator('button').click();
      assert.match(await section.locator('.verdict').textContent(), /^Right\. Six in each quarter\./);
    }));

  test('a number is compared as a number', () =>
    withPage({ hash: '#the-board' }, async (page) => {
      const answer = (text) => verdict(page, '#the-board--question-pips', text);
      assert.match(await answer('167'), /^Right\./);
      assert.match(await answer('167,0'), /^Right\./);
      assert.match(await answer('168'), /^Not yet\./);
      assert.match(await answer('many'), /in digits/);
    }));
});

describe('readers of every kind', () => {
  test('without scripts everything can be read', () =>
    withPage({ javaScriptEnabled: false, viewport: sizes.laptop }, async (page) => {
      for (const text of ['In with the four.', 'The two is free for anyone.', 'Denim takes, and holds it.'])
        assert.ok(await page.getByText(text, { exact: true }).first().isVisible(), text);
      assert.ok(await page.getByRole('heading', { name: 'Contents' }).isVisible());
      assert.equal(await page.locator('button:visible').count(), 0);
      await page.screenshot({ path: `${pictures}/without-scripts.png`, fullPage: true });
    }));

  test('the choice of light or dark is kept', () =>
    withPage({ colorScheme: 'light' }, async (page) => {
      const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
      const light = await ground();
      await page.locator('.theme').click();
      const dark = await ground();
      assert.notEqual(dark, light);
      await page.reload();
      assert.equal(await ground(), dark);
      await page.locator('.theme').click();
      assert.equal(await ground(), light);
    }));

  test('on paper every chapter and step is there, in black on white', () =>
    withPage({ colorScheme: 'dark', viewport: { width: 794, height: 1123 } }, async (page) => {
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      for (const text of ['In with the four.', 'Denim takes, and holds it.'])
        await page.getByText(text, { exact: true }).first().waitFor();
      assert.equal(await page.locator('.controls:visible').count(), 0);
      assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), 'rgb(255, 255, 255)');
      await page.screenshot({ path: `${pictures}/print.png`, fullPage: true });
    }));

  test('printing lays out the chapters that were not opened yet', () =>
    withPage({}, async (page) => {
      assert.equal(await page.locator('.scene').count(), 0);
      await page.pdf();
      assert.equal(await page.locator('.chapter > noscript').count(), 0);
      assert.ok((await page.locator('.scene').count()) > 2);
    }));

  test('the first tab stop skips to the text', () =>
    withPage({}, async (page) => {
      await page.keyboard.press('Tab');
      assert.equal(await page.evaluate(() => document.activeElement.className), 'skip');
    }));
});
