// What stands beside the board of the table: names, score, record, dice that can be checked.
import type { Side, TableAnswer, VerifyAnswer } from './answers';
import { element } from './dom';
import type { Texts } from './texts';

const nameOf = (table: TableAnswer, side: Side): string => table.names[side === 'light' ? 0 : 1];

/** A line above or below the board: who plays these checkers, and how far they are. */
export class Strip {
  readonly root = element('p', { class: 'strip' });
  show(texts: Texts, table: TableAnswer, side: Side): void {
    const at = side === 'light' ? 0 : 1;
    const notes = [texts.pips(table.pips[at] ?? 0)];
    if (table.match && table.score) notes.push(`${table.score[at]}/${table.match}`);
    this.root.classList.toggle('to-move', table.turn === side && table.phase !== 'over');
    this.root.replaceChildren(
      element('span', { class: `disc ${side}`, 'aria-hidden': 'true' }),
      element('strong', {}, nameOf(table, side)),
      element('span', { class: 'notes' }, notes.join(' · ')),
    );
  }
}

/** "Ivory 2, Walnut 1; match to 5. Cube 2 with Ivory." */
export const scoreWords = (texts: Texts, table: TableAnswer): string => {
  const words: string[] = [];
  const [light, dark] = table.names;
  if (table.match && table.score) words.push(texts.score(light, dark, table.score[0], table.score[1], table.match));
  if (table.crawford) words.push(texts.crawford);
  else if (table.cubeInUse) words.push(texts.cube(table.cube, table.holder ? nameOf(table, table.holder) : null));
  return words.join('. ');
};

/** The record, turn by turn. */
export class Sheet {
  private readonly list = element('ol', { class: 'sheet', tabindex: '0' });
  readonly root: HTMLElement;
  constructor(texts: Texts) {
    this.list.setAttribute('aria-label', texts.sheet);
    this.root = element('details', { class: 'record', open: true }, element('summary', {}, texts.sheet), this.list);
  }
  show(texts: Texts, table: TableAnswer): void {
    let game = 0;
    const items: HTMLElement[] = [];
    for (const line of table.sheet) {
      if (line.game !== game && (table.sheet.at(-1)?.game ?? 1) > 1)
        items.push(element('li', { class: 'game-title' }, texts.game(line.game)));
      game = line.game;
      items.push(
        element('li', {}, element('span', { class: `disc ${line.side ?? ''}`, 'aria-hidden': 'true' }), `${line.side ? nameOf(table, line.side) : ''} ${line.text}`),
      );
    }
    this.list.replaceChildren(...items);
    this.list.scrollTop = this.list.scrollHeight;
  }
}

/** What came of checking the program's dice. */
export const verifyWords = (texts: Texts, answer: VerifyAnswer): string => {
  if (!answer.holds) return texts.sealBroken;
  return answer.wrong.length ? texts.diceDiffer(answer.wrong.map((n) => n + 1).join(', ')) : texts.diceHold(answer.throws);
};
