// Checking anybody's dice: a seal, a secret and throws that were noted, or the record of a game.
import type { ThrowsAnswer } from './answers';
import { element, freshId } from './dom';
import type { Engine } from './engine';
import type { Texts } from './texts';

const diceText = ([first, second]: [number, number]): string => `${first}-${second}`;

/** The lines of a record that have to do with dice. */
const recordLines = (text: string): string[] =>
  text.split(/\r?\n/).map((line) => line.trim()).filter((line) => /^(opening|throw) /.test(line));

export class DiceCheck {
  readonly root: HTMLDetailsElement;
  private readonly seal: HTMLInputElement;
  private readonly seed: HTMLInputElement;
  private readonly words: HTMLInputElement;
  private readonly throws = element('textarea', { rows: '4', autocomplete: 'off', spellcheck: 'false' });
  private readonly verdict = element('div', { class: 'dice-verdict', role: 'status' });

  constructor(
    private readonly engine: Engine,
    private readonly texts: Texts,
  ) {
    const words = texts.diceCheck;
    const line = () => element('input', { type: 'text', autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false' });
    [this.seal, this.seed, this.words] = [line(), line(), line()];
    const row = (label: string, field: HTMLElement, hint = ''): HTMLElement => {
      field.id = freshId();
      const made = element('p', { class: 'form-row' }, element('label', { for: field.id }, label), field);
      if (hint) {
        field.setAttribute('aria-describedby', `${field.id}-hint`);
        made.append(element('small', { id: `${field.id}-hint` }, hint));
      }
      return made;
    };
    const form = element(
      'form',
      {},
      row(words.throws, this.throws, words.throwsHint),
      row(words.seal, this.seal),
      row(words.seed, this.seed),
      row(words.words, this.words),
      element('p', { class: 'controls' }, element('button', { type: 'submit' }, words.check)),
      this.verdict,
    );
    this.throws.addEventListener('input', () => this.takeRecord());
    form.addEventListener('input', () => this.verdict.replaceChildren());
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      void this.check();
    });
    this.root = element('details', { class: 'dice-check' }, element('summary', {}, words.title), form);
  }

  /** A record names its seal, its secret and the words of its players. */
  private takeRecord(): void {
    for (const [key, field] of Object.entries({ sealed: this.seal, seed: this.seed, words: this.words })) {
      const found = new RegExp(`^${key} (.*)$`, 'm').exec(this.throws.value)?.[1]?.trim();
      if (found) field.value = found;
    }
  }

  private async check(): Promise<void> {
    const noted = recordLines(this.throws.value);
    const lines = noted.length > 0 ? noted : [`throws ${this.throws.value.replace(/\s+/g, ' ').trim()}`];
    const answer = await this.engine.throws({
      sealed: this.seal.value.trim().toLowerCase(),
      seed: this.seed.value.trim(),
      words: this.words.value.trim(),
    }, lines);
    this.verdict.replaceChildren(...this.answerNodes(answer));
  }

  private answerNodes(answer: ThrowsAnswer): Node[] {
    const words = this.texts.diceCheck;
    const paragraph = (text: string) => element('p', {}, text);
    if (answer.error) return [paragraph(words.fault(answer.error.id, answer.error.reason))];
    const { throws = [], fits } = answer;
    const noted = throws.filter((each) => each.noted);
    const wrong = noted.filter((each) => !each.holds);
    const nodes: Node[] = [paragraph(fits === undefined ? words.noSeal(answer.digest ?? '') : fits ? words.fits : words.fitsNot)];
    if (throws.length === 0) nodes.push(paragraph(words.noThrows));
    else nodes.push(paragraph(wrong.length > 0 ? words.differ(wrong.length, noted.length) : words.follow(noted.length)));
    const items = throws.map(({ number, made, noted: written, holds }) =>
      element('li', { class: holds ? '' : 'wrong' }, words.made(number + 1, diceText(made), !holds && written ? diceText(written) : '')),
    );
    if (items.length > 0) nodes.push(element('ol', { class: 'sheet', tabindex: '0', 'aria-label': words.list }, ...items));
    return nodes;
  }
}
