// The words and buttons beside a board on which a turn is played.
import type { Ruling, TurnAnswer } from './answers';
import { button, element, freshId, setEnabled } from './dom';
import type { Texts } from './texts';
import type { TurnDesk } from './turn_desk';

/** A refusal as it is shown: the proof first, the rule second, what is allowed last. */
export const refusalNodes = (texts: Texts, ruling: Ruling): Node[] => {
  const nodes: Node[] = [element('p', {}, element('strong', {}, `${texts.refused}. `), ruling.proof ?? '')];
  if (ruling.statement) nodes.push(element('p', { class: 'rule' }, `${texts.rule}: ${ruling.statement}`));
  if (ruling.alternatives?.length)
    nodes.push(element('p', { class: 'rule' }, texts.nearest(ruling.alternatives.slice(0, 3).join('; '))));
  return nodes;
};

export class RefusalBox {
  readonly root = element('div', { class: 'refusal', role: 'alert' });
  constructor(private readonly texts: Texts) {}
  show(ruling: Ruling): void {
    this.root.replaceChildren(...refusalNodes(this.texts, ruling));
  }
  clear(): void {
    if (this.root.hasChildNodes()) this.root.replaceChildren();
  }
}

/** A field in which a play can be written instead of moved. */
export const playField = (texts: Texts, play: (text: string) => void): HTMLFormElement => {
  const id = freshId();
  const input = element('input', {
    id,
    type: 'text',
    autocomplete: 'off',
    autocapitalize: 'off',
    spellcheck: 'false',
    'aria-describedby': `${id}-hint`,
  });
  const submit = element('button', { type: 'submit', class: 'quiet' }, texts.make);
  const form = element(
    'form',
    { class: 'write-play' },
    element('label', { for: id }, texts.writePlay),
    element('span', { class: 'row' }, input, submit),
    element('small', { id: `${id}-hint` }, texts.writePlayHint),
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const text = input.value.trim();
    if (!text) return;
    input.value = '';
    play(text);
  });
  return form;
};

/** Buttons to take moves back, kept in step with the turn. */
export class TurnButtons {
  readonly back: HTMLButtonElement;
  readonly restart: HTMLButtonElement;
  constructor(texts: Texts, desk: TurnDesk) {
    this.back = button(texts.takeBack, () => void desk.takeBack());
    this.restart = button(texts.takeAllBack, () => void desk.takeAllBack());
    this.update(null);
  }
  update(turn: TurnAnswer | null): void {
    for (const each of [this.back, this.restart]) setEnabled(each, !!turn?.moves);
  }
}
