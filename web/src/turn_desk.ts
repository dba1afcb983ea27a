// One turn on a live board: what was moved so far, what may come next, and what was refused.
import type { Journey, Place, Ruling, Side, TurnAnswer } from './answers';
import type { LiveBoard } from './board';
import { isAnswered, type Engine } from './engine';

export interface Seen {
  names: [string, string];
  /** Fields of a picture: bottom, home, numbering, margins, light, dark. */
  view: Record<string, string>;
}

/** A journey as the record writes it: "24/18 18/14". */
export const stepsText = (steps: [Place, Place][]): string =>
  steps.map(([from, to]) => `${from === 25 ? 'bar' : from}/${to === 0 ? 'off' : to}`).join(' ');

/** Shows a position on a board. `can` are the journeys that may be made. */
export const showOn = async (
  engine: Engine,
  board: LiveBoard,
  seen: Seen,
  position: string,
  mover: Side | null,
  can: Journey[],
  more: Record<string, string> = {},
): Promise<void> => {
  const [picture, about] = await Promise.all([
    engine.picture({ position, ...seen.view, ...more }),
    engine.position({ position, ...seen.view }),
  ]);
  board.show({
    picture,
    camps: about.camps,
    names: seen.names,
    mover,
    reader: (seen.view['bottom'] as Side | undefined) ?? 'light',
    can,
    title: about.title,
    spoken: about.spoken,
  });
};

export class TurnDesk {
  turn: TurnAnswer | null = null;
  onChange: (turn: TurnAnswer) => void = () => undefined;
  onRefused: (ruling: Ruling) => void = () => undefined;
  private position = '';
  private side: Side = 'light';

  constructor(
    private readonly engine: Engine,
    private readonly board: LiveBoard,
    private readonly seen: Seen,
  ) {
    board.onMove = (from, to) => void this.move(from, to);
  }

  /** Begins the turn of a position that has a roll. */
  async start(position: string, side: Side): Promise<void> {
    this.position = position;
    this.side = side;
    await this.set('');
  }

  private async set(moves: string): Promise<void> {
    const turn = await this.engine.turn({ position: this.position, moves, ...this.seen.view });
    if (!isAnswered(turn)) return;
    this.turn = turn;
    await showOn(this.engine, this.board, this.seen, turn.position, this.side, turn.can);
    this.onChange(turn);
  }

  async move(from: Place, to: Place): Promise<void> {
    const { turn } = this;
    if (!turn) return;
    const journey = turn.can.find((each) => each.from === from && each.to === to);
    if (journey) {
      await this.set(`${turn.moves} ${stepsText(journey.steps)}`.trim());
      return;
    }
    this.board.dropBack();
    const place = (at: Place) => (at === 25 ? 'bar' : at === 0 ? 'off' : at);
    const answer = await this.engine.turn({
      position: this.position,
      moves: turn.moves,
      from: place(from),
      to: place(to),
      ...this.seen.view,
    });
    if (answer.refused) this.onRefused(answer.refused);
  }

  /** Makes a whole play that was written. */
  async write(play: string): Promise<void> {
    const ruling = await this.engine.rule({ position: this.position, play, ...this.seen.view });
    if (ruling.allowed && ruling.play) await this.set(ruling.play === 'no play' ? '' : ruling.play);
    else
      this.onRefused(
        ruling.faults?.[0] ? { allowed: false, proof: `${ruling.faults[0].reason}: ${ruling.faults[0].fix}.` } : ruling,
      );
  }

  async takeBack(): Promise<void> {
    if (!this.turn) return;
    await this.set(this.turn.moves.split(' ').slice(0, -1).join(' '));
  }
  async takeAllBack(): Promise<void> {
    await this.set('');
  }
}
