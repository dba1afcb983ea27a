// Entering dice in two taps or two keys.
import { button, element } from './dom';
import type { Texts } from './texts';

/** Six faces; the second choice completes the throw. */
export class DicePicker {
  readonly root: HTMLElement;
  private first: number | null = null;
  private readonly faces: HTMLButtonElement[] = [];
  private readonly chosen = element('span', { class: 'chosen', 'aria-live': 'polite' });
  private readonly heading = element('p', { class: 'dice-heading' });
  private labels: [string, string] = ['', ''];

  constructor(
    texts: Texts,
    private readonly done: (first: number, second: number) => void,
  ) {
    for (let face = 1; face <= 6; ++face)
      this.faces.push(button(texts.die(face), () => this.take(face), { class: 'die', 'data-face': String(face) }));
    this.root = element(
      'div',
      { class: 'dice-picker', role: 'group', 'aria-label': texts.dice },
      this.heading,
      element('span', { class: 'faces' }, ...this.faces),
      this.chosen,
    );
  }

  /** Asks for two dice: both of one side, or one of each. */
  ask(first: string, second: string): void {
    this.labels = [first, second];
    this.first = null;
    this.update();
  }

  /** Takes a digit key; whether it was one of ours. */
  key(key: string): boolean {
    if (key === 'Backspace' && this.first !== null) {
      this.first = null;
      this.update();
      return true;
    }
    if (!/^[1-6]$/.test(key)) return false;
    this.take(Number(key));
    return true;
  }

  private take(face: number): void {
    if (this.first === null) {
      this.first = face;
      this.update();
      return;
    }
    const first = this.first;
    this.first = null;
    this.update();
    this.done(first, face);
  }

  private update(): void {
    const { first } = this;
    this.heading.textContent = first === null ? this.labels[0] : this.labels[1];
    this.chosen.textContent = first === null ? '' : `${first}, …`;
    this.faces.forEach((each, i) => each.classList.toggle('picked', first === i + 1));
  }
}

/** Two dice from the browser's source of randomness, every face equally likely. */
export const randomDice = (): [number, number] => {
  const dice: number[] = [];
  while (dice.length < 2) {
    const [byte = 255] = crypto.getRandomValues(new Uint8Array(1));
    if (byte < 252) dice.push((byte % 6) + 1);
  }
  return [dice[0] ?? 1, dice[1] ?? 1];
};
