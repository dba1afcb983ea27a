// Taking over a board of a lesson: the learner plays on from any moment of it.
import type { Side } from './answers';
import { AskPanel } from './ask';
import { LiveBoard } from './board';
import { DicePicker, randomDice } from './dice';
import { button, element, setEnabled } from './dom';
import { isAnswered, type Engine } from './engine';
import { playField, RefusalBox, TurnButtons } from './panel';
import type { Texts } from './texts';
import { showOn, TurnDesk, type Seen } from './turn_desk';

export interface Source {
  position: string;
  seen: Seen;
  /** The id of the ground that this view shows. */
  ground: string;
}

export class Takeover {
  readonly board: LiveBoard;
  readonly panel: HTMLElement;
  onClose: () => void = () => undefined;
  /** A play was made and the dice lifted; the position is the one after it. */
  onPlayed: (play: string, position: string) => void = () => undefined;

  private readonly desk: TurnDesk;
  private readonly status = element('p', { class: 'turn-status', role: 'status' });
  private readonly refusal: RefusalBox;
  private readonly picker: DicePicker;
  private readonly buttons: TurnButtons;
  private readonly lift: HTMLButtonElement;
  private readonly rollRow: HTMLElement;
  private readonly sides: HTMLElement;
  private readonly turnRow: HTMLElement;
  private readonly write: HTMLFormElement;
  private readonly ask: AskPanel;
  private position = '';
  private side: Side = 'light';
  private done = '';

  constructor(
    private readonly engine: Engine,
    private readonly texts: Texts,
    private readonly source: Source,
  ) {
    this.board = new LiveBoard(source.ground, texts);
    this.desk = new TurnDesk(engine, this.board, source.seen);
    this.refusal = new RefusalBox(texts);
    this.buttons = new TurnButtons(texts, this.desk);
    this.lift = button(texts.lift, () => void this.finishTurn(), { class: 'next' });
    this.picker = new DicePicker(texts, (first, second) => void this.play(first, second));
    this.rollRow = element(
      'div',
      { class: 'roll-row' },
      button(texts.throwDice, () => void this.play(...randomDice()), { class: 'next' }),
      this.picker.root,
    );
    this.sides = element(
      'div',
      { class: 'controls' },
      ...(['light', 'dark'] as const).map((side) =>
        button(texts.sideRolls(this.name(side)), () => void this.beginWith(side)),
      ),
    );
    this.turnRow = element('div', { class: 'controls' }, this.buttons.back, this.buttons.restart, this.lift);
    this.write = playField(texts, (play) => void this.desk.write(play));
    this.ask = new AskPanel(
      engine,
      texts,
      () => source.seen.names,
      () => source.seen.view,
    );
    this.panel = element(
      'div',
      { class: 'takeover' },
      element('p', { class: 'kicker' }, texts.yourBoard),
      this.status,
      this.refusal.root,
      this.sides,
      this.rollRow,
      this.turnRow,
      this.write,
      this.ask.root,
      element(
        'div',
        { class: 'controls leave' },
        button(texts.again, () => void this.begin()),
        button(texts.giveBack, () => this.onClose()),
      ),
    );
    this.desk.onChange = (turn) => {
      this.refusal.clear();
      this.buttons.update(turn);
      setEnabled(this.lift, turn.complete);
      this.done = turn.play ?? '';
      const roll = this.position.match(/to play (\d-\d)/)?.[1] ?? '';
      const stuck = turn.complete && !turn.moves;
      this.say(
        stuck
          ? texts.noMove(this.name(this.side), roll)
          : turn.complete
            ? texts.complete(this.name(this.side), this.done)
            : texts.toPlay(this.name(this.side), roll, turn.left.join('-')),
      );
    };
    this.desk.onRefused = (ruling) => this.refusal.show(ruling);
    this.board.onPick = (place) =>
      this.say(place === null ? texts.putBack : texts.pickedUp(place === 25 ? 'bar' : String(place)));
  }

  private name(side: Side): string {
    return this.source.seen.names[side === 'light' ? 0 : 1];
  }
  private say(words: string): void {
    this.status.textContent = words;
  }
  private shown(part: 'sides' | 'roll' | 'turn' | 'none'): void {
    this.sides.hidden = part !== 'sides';
    this.rollRow.hidden = part !== 'roll';
    this.turnRow.hidden = part !== 'turn';
    this.write.hidden = part !== 'turn';
  }

  async begin(): Promise<void> {
    await this.go(this.source.position);
  }

  /** Goes on from a position, whatever it waits for. */
  private async go(position: string): Promise<void> {
    this.refusal.clear();
    const about = await this.engine.position({ position, ...this.source.seen.view });
    if (!isAnswered(about)) return;
    this.position = position;
    await this.ask.about(position);
    if (about.over) {
      this.say(about.spoken);
      this.shown('none');
      await showOn(this.engine, this.board, this.source.seen, position, null, []);
    } else if (!about.turn) {
      this.say(this.texts.whoPlays);
      this.shown('sides');
      await showOn(this.engine, this.board, this.source.seen, position, null, []);
    } else if (!about.roll) {
      this.side = about.turn;
      this.say(this.texts.toRoll(this.name(about.turn)));
      this.picker.ask(this.texts.diceFor(this.name(about.turn)), this.texts.diceFor(this.name(about.turn)));
      this.shown('roll');
      await showOn(this.engine, this.board, this.source.seen, position, null, []);
    } else {
      this.side = about.turn;
      this.shown('turn');
      await this.desk.start(position, about.turn);
    }
  }

  private async beginWith(side: Side): Promise<void> {
    const about = await this.engine.position({ position: this.position, turn: side });
    await this.go(about.position);
  }

  private async play(first: number, second: number): Promise<void> {
    const about = await this.engine.position({ position: this.position, roll: `${first} ${second}` });
    await this.go(about.position);
    this.board.focus();
  }

  private async finishTurn(): Promise<void> {
    const turn = this.desk.turn;
    if (!turn?.complete || !turn.next) return;
    const words = this.texts.played(this.name(this.side), turn.play ?? 'no play');
    this.onPlayed(turn.play ?? 'no play', turn.next);
    await this.go(turn.next);
    // The other side's turn has begun, unless the game is over.
    if (!this.rollRow.hidden) this.say(`${words} ${this.texts.toRoll(this.name(this.side))}`);
  }
}
