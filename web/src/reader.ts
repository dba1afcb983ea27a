// Makes the page of a course live. The page's own script (studio/assets/page.js) steps and checks
// without an engine; this adds boards to play on, the referee, and progress.
import type { Side } from './answers';
import { LiveBoard } from './board';
import { button, element, saveFile, setEnabled } from './dom';
import { Engine, isAnswered } from './engine';
import { RefusalBox, TurnButtons } from './panel';
import { Progress } from './progress';
import { Takeover, type Source } from './takeover';
import { textsFor, type Texts } from './texts';
import { TurnDesk } from './turn_desk';

const all = <T extends Element = HTMLElement>(selector: string, from: ParentNode = document): T[] => [
  ...from.querySelectorAll<T>(selector),
];

/** What a scene or question says of its board. */
const sourceOf = (board: HTMLElement, position: string): Source => {
  const { light = 'light', dark = 'dark', bottom = 'light', home = 'right', numbering = 'light' } = board.dataset;
  return {
    position,
    seen: { names: [light, dark], view: { light, dark, bottom, home, numbering } },
    ground: board.querySelector('svg.board > use')?.getAttribute('href')?.slice(1) ?? '',
  };
};

const rollOf = (position: string): string => /(light|dark) to play \d-\d/.exec(position)?.[0] ?? '';

/** The position from which a scene is taken over: what it shows now, or, in the middle of a turn,
    the position in which that turn began. */
const positionOf = (scene: HTMLElement): string => {
  const start = scene.dataset['position'] ?? '';
  const steps = all('.steps > li', scene);
  const positions = steps.map((step) => step.dataset['position'] ?? start);
  let at = Math.max(steps.findIndex((step) => step.classList.contains('now')), 0);
  const shown = positions[at] ?? start;
  const sameTurn = () =>
    at > 0 && rollOf(shown) !== '' && rollOf(positions[at - 1] ?? '') === rollOf(shown) && steps[at]?.dataset['placed'] === undefined;
  while (sameTurn()) --at;
  return positions[at] ?? start;
};

const offerTakeover = (engine: Engine, texts: Texts, scene: HTMLElement): void => {
  const figure = scene.querySelector('figure');
  const picture = figure?.querySelector<SVGElement>('svg.board');
  if (!figure || !picture) return;
  const telling = scene.querySelector<HTMLElement>('.telling');
  const offer = button(texts.takeOver, () => {
    const takeover = new Takeover(engine, texts, sourceOf(scene, positionOf(scene)));
    const hide = (hidden: boolean) => {
      picture.classList.toggle('set-aside', hidden);
      telling?.classList.toggle('set-aside', hidden);
      offer.hidden = hidden;
      scene.classList.toggle('taken-over', hidden);
    };
    takeover.onClose = () => {
      takeover.board.root.remove();
      takeover.panel.remove();
      hide(false);
      offer.focus();
    };
    hide(true);
    picture.after(takeover.board.root);
    figure.after(takeover.panel);
    void takeover.begin().then(() => takeover.board.focus());
  }, { class: 'take-over' });
  (telling ?? figure).append(offer);
};

/** A question about a play is answered by making the play. */
const playQuestion = async (engine: Engine, texts: Texts, question: HTMLElement): Promise<void> => {
  const picture = question.querySelector<SVGElement>('svg.board');
  const field = question.querySelector<HTMLInputElement>('form input[type=text]');
  if (!picture || !field) return;
  const source = sourceOf(question, question.dataset['position'] ?? '');
  const about = await engine.position({ position: source.position });
  if (!isAnswered(about) || !about.turn || !about.roll) return;
  const board = new LiveBoard(source.ground, texts);
  const desk = new TurnDesk(engine, board, source.seen);
  const refusal = new RefusalBox(texts);
  const buttons = new TurnButtons(texts, desk);
  let first = true;
  desk.onChange = (turn) => {
    refusal.clear();
    buttons.update(turn);
    if (first) {
      first = false;
      return; // the board as it was asked about; the field stays as it is
    }
    field.value = turn.play && turn.play !== 'no play' ? turn.play : turn.moves;
    field.dispatchEvent(new Event('input', { bubbles: true }));
  };
  desk.onRefused = (ruling) => refusal.show(ruling);
  await desk.start(source.position, about.turn as Side);
  picture.classList.add('set-aside');
  picture.after(board.root);
  question
    .querySelector('.field')
    ?.before(refusal.root, element('p', { class: 'controls' }, buttons.back, buttons.restart));
};

/** Numbers that follow from a seed: a linear congruential generator (D. E. Knuth, The Art of
    Computer Programming, volume 2, section 3.3.4, table 1, line 16). */
const following = (seed: number) => {
  let state = seed >>> 0;
  return (below: number) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
};

/** Puts the choices of a question into another order, the same for one reader at every visit. */
const shuffle = (list: HTMLElement, seed: number): void => {
  let mixed = seed;
  for (const c of list.closest('.question')?.id ?? '') mixed = Math.imul(mixed ^ c.charCodeAt(0), 16777619);
  const below = following(mixed);
  const items = [...list.children];
  for (let i = items.length - 1; i > 0; --i) {
    const j = below(i + 1);
    [items[i], items[j]] = [items[j] as Element, items[i] as Element];
  }
  list.append(...items);
};

/** What a reader does in a chapter is kept. */
const keepAnswers = (progress: Progress, chapter: HTMLElement): void => {
  for (const question of all('.question', chapter)) {
    const verdict = question.querySelector<HTMLElement>('.verdict');
    if (!verdict) continue;
    question.querySelector('form')?.addEventListener('submit', () => {
      // The page's own script, which came first, has judged by now.
      const judged = ['right', 'wrong'].find((word) => verdict.classList.contains(word));
      if (judged) progress.answered(question.id, judged === 'right');
    });
  }
  const end = new IntersectionObserver((entries) => {
    if (entries.some(({ isIntersecting }) => isIntersecting)) progress.markRead(chapter.id);
  });
  for (const turn of all('.turn', chapter)) end.observe(turn);
};

/** Shows in the contents what was kept. */
const showProgress = (texts: Texts, progress: Progress): void => {
  const marks = all('.contents > li').map((item) => {
    const { chapter = '', questions = '' } = item.dataset;
    const mark = element('span', { class: 'progress-mark' });
    item.append(mark);
    return { chapter, mark, questions: questions.split(' ').filter(Boolean) };
  });
  const kept = element('p', { class: 'quiet-note' });
  const file = element('input', { type: 'file', accept: '.json,application/json', class: 'spoken', tabindex: '-1', 'aria-hidden': 'true' });
  const note = element('p', { role: 'status' });
  file.addEventListener('change', () => {
    void file.files?.[0]?.text().then((text) => {
      note.textContent = progress.open(text) ? '' : texts.notProgress;
      file.value = '';
    });
  });
  const forget = button(texts.forgetProgress, () => {
    if (confirm(texts.forgetSure)) progress.forget();
  });
  const course = document.documentElement.dataset['course'] ?? 'course';
  document.querySelector('.contents')?.after(
    element(
      'section',
      { class: 'progress', 'aria-labelledby': 'progress-title' },
      element('h2', { id: 'progress-title' }, texts.progress),
      element(
        'p',
        { class: 'controls' },
        button(texts.saveProgress, () => saveFile(`${course}-progress.json`, 'application/json', progress.toText())),
        button(texts.openProgress, () => file.click()),
        forget,
        file,
      ),
      note,
      kept,
    ),
  );
  const show = () => {
    for (const { chapter, mark, questions } of marks) {
      const right = questions.filter((id) => progress.isRight(id)).length;
      const words = right > 0 ? texts.answered(right, questions.length) : progress.wasRead(chapter) ? texts.read : '';
      mark.textContent = words;
      mark.classList.toggle('all', questions.length > 0 && right === questions.length);
    }
    setEnabled(forget, true);
    kept.textContent = progress.kept ? texts.progressKept : texts.progressLost;
  };
  progress.onChange = show;
  show();
};

const main = (): void => {
  const texts = textsFor(document.documentElement.lang);
  const progress = new Progress(document.documentElement.dataset['course'] ?? 'course');
  showProgress(texts, progress);
  // The engine is started when the first board that can use it comes into view.
  let engine: Engine | null = null;
  const started = () => (engine ??= Engine.fromPage());
  const boards = new IntersectionObserver(
    (entries) => {
      for (const { isIntersecting, target } of entries) {
        if (!isIntersecting) continue;
        boards.unobserve(target);
        const board = target as HTMLElement;
        if (board.classList.contains('scene')) offerTakeover(started(), texts, board);
        else void playQuestion(started(), texts, board);
      }
    },
    { rootMargin: '300px' },
  );
  const begin = (chapter: HTMLElement) => {
    for (const list of all('.question .choices', chapter)) shuffle(list, progress.seed);
    keepAnswers(progress, chapter);
    for (const board of all('.scene[data-position]', chapter)) boards.observe(board);
    for (const form of all('.question[data-position] form[data-kind=play]', chapter))
      boards.observe(form.closest('.question') as HTMLElement);
  };
  // Chapters are laid out when they are opened (studio/assets/page.js).
  for (const chapter of all('.chapter')) if (!chapter.querySelector(':scope > noscript')) begin(chapter);
  document.addEventListener('laid-out', ({ target }) => {
    if ((target as HTMLElement).matches('.chapter')) begin(target as HTMLElement);
  });
};

main();
