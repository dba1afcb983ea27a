// A game at the table, headless: the record and what the players agreed on beforehand. Whatever is
// shown follows from these; keeping them loses nothing.
import type { Side, TableAnswer } from './answers';
import { storage } from './dom';
import type { Engine } from './engine';

export interface Agreement {
  /** The side that the program plays, if it plays. */
  program: Side | null;
  dice: 'program' | 'real';
  referee: 'at-once' | 'at-end';
  names: [string, string];
  match: number | null;
  /** House rules as they are written: "jacoby", "no-cube". */
  house: string[];
  words: string;
}

export const usual = (names: [string, string]): Agreement => ({
  program: null,
  dice: 'program',
  referee: 'at-once',
  names,
  match: 5,
  house: [],
  words: '',
});

interface Kept {
  pointwright: 'table';
  version: 1;
  record: string[];
  seed: string;
  agreement: Agreement;
}

const key = 'pointwright:table';

const freshSeed = (): string =>
  [...crypto.getRandomValues(new Uint8Array(24))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

const oneLine = (text: string): string => text.replace(/[\s|]+/g, ' ').trim();

export class TableGame {
  record: string[] = [];
  seed = '';
  kept = true;
  /** Another tab has gone on with the game. */
  onElsewhere: () => void = () => undefined;

  constructor(
    private readonly engine: Engine,
    public agreement: Agreement,
  ) {
    addEventListener('storage', (event) => {
      if (event.key === key && event.newValue && this.load()) this.onElsewhere();
    });
  }

  /** Begins anew under an agreement. */
  async begin(agreement: Agreement): Promise<void> {
    this.agreement = agreement;
    this.seed = freshSeed();
    const [light, dark] = agreement.names.map(oneLine);
    this.record = [`names ${light || 'Light'} | ${dark || 'Dark'}`];
    if (agreement.match) this.record.push(`match ${agreement.match}`);
    if (agreement.house.length) this.record.push(`house ${agreement.house.join(' ')}`);
    if (agreement.dice === 'program') {
      const { digest = '' } = await this.engine.sealed(this.seed);
      this.record.push(`sealed ${digest}`);
      if (oneLine(agreement.words)) this.record.push(`words ${oneLine(agreement.words)}`);
    }
    this.keep();
  }

  get words(): string {
    return this.record.find((line) => line.startsWith('words '))?.slice(6) ?? '';
  }

  /** The program's next two dice. */
  async dice(throws: number): Promise<[number, number]> {
    const { dice = [1, 1] } = await this.engine.sealed(this.seed, this.words, throws);
    return dice;
  }

  table(): Promise<TableAnswer> {
    return this.engine.table(this.record);
  }

  /** Adds events if the rules allow them. Otherwise nothing changes and the answer has a fault. */
  async add(events: string[]): Promise<TableAnswer> {
    const next = [...this.record, ...events];
    const answer = await this.engine.table(next);
    if (!answer.fault) {
      this.record = next;
      this.keep();
    }
    return answer;
  }

  private get headings(): number {
    const first = this.record.findIndex((line) => /^(opening|throw|move|lift|offer|take|drop|beaver|next)\b/.test(line));
    return first < 0 ? this.record.length : first;
  }

  /** Takes the last move of the turn back. */
  takeBack(): void {
    if (!this.record.at(-1)?.startsWith('move ')) return;
    this.record.pop();
    this.keep();
  }
  takeAllBack(): void {
    while (this.record.at(-1)?.startsWith('move ')) this.record.pop();
    this.keep();
  }

  get canUndo(): boolean {
    return this.record.length > this.headings;
  }

  /** Back to the last throw of a person's, or the beginning: across turns, for teaching. */
  async undo(): Promise<void> {
    const { headings } = this;
    while (this.record.length > headings) {
      this.record.pop();
      if (!/^(opening|throw) /.test(this.record.at(-1) ?? '')) continue;
      const { phase, turn } = await this.table();
      if (phase === 'to-play' && turn !== this.agreement.program) break;
    }
    this.keep();
  }

  // ---- keeping ----------------------------------------------------------------------------------

  private keep(): void {
    const kept: Kept = { pointwright: 'table', version: 1, record: this.record, seed: this.seed, agreement: this.agreement };
    this.kept = storage.set(key, JSON.stringify(kept));
  }

  /** Goes on with what the browser kept. Whether there was something. */
  load(): boolean {
    try {
      const kept = JSON.parse(storage.get(key) ?? 'null') as Partial<Kept> | null;
      if (kept?.pointwright !== 'table' || kept.version !== 1 || !Array.isArray(kept.record) || !kept.agreement) return false;
      this.record = kept.record.map(String);
      this.seed = String(kept.seed);
      this.agreement = { ...usual(['', '']), ...kept.agreement };
      return true;
    } catch {
      return false;
    }
  }

  /** The record as a file. It holds the seed, so that the game can be taken up again elsewhere. */
  toText(): string {
    const { program, dice, referee } = this.agreement;
    const lines = [...this.record];
    if (dice === 'program') lines.splice(this.headings, 0, `seed ${this.seed}`);
    return ['# Pointwright table', `# program ${program ?? 'none'}, dice ${dice}, referee ${referee}`, ...lines, ''].join('\n');
  }

  /** Takes up a record from a file. A record that cannot be followed changes nothing. */
  async open(text: string): Promise<TableAnswer> {
    const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
    const answer = await this.engine.table(lines);
    if (answer.fault) return answer;
    const agreed = lines.find((line) => line.startsWith('# program ')) ?? '';
    const side = /program (light|dark)/.exec(agreed)?.[1] as Side | undefined;
    const field = (name: string) => lines.find((line) => line.startsWith(`${name} `))?.slice(name.length + 1);
    this.seed = field('seed') ?? '';
    this.agreement = {
      program: side ?? null,
      dice: field('sealed') && this.seed ? 'program' : 'real',
      referee: agreed.includes('referee at-end') ? 'at-end' : 'at-once',
      names: answer.names,
      match: answer.match ?? null,
      house: field('house')?.split(' ') ?? [],
      words: field('words') ?? '',
    };
    this.record = lines.filter((line) => !line.startsWith('#') && !line.startsWith('seed '));
    this.keep();
    return answer;
  }
}
