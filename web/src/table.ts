// The table: two people at one screen, or one against the program. The record is the state
// (table_game.ts); everything here follows from what the engine says of it.
import type { Place, Ruling, Side, TableAnswer, TurnAnswer } from './answers';
import { other } from './answers';
import { AskPanel } from './ask';
import { LiveBoard } from './board';
import { DicePicker } from './dice';
import { DiceCheck } from './dice_check';
import { button, calm, element, saveFile, setEnabled } from './dom';
import { Engine } from './engine';
import { chosenLanguage, drawGround, languageSelect, themeButton } from './page_parts';
import { playField, RefusalBox } from './panel';
import { askForGame } from './table_form';
import { TableGame, usual, type Agreement } from './table_game';
import { scoreWords, Sheet, Strip, verifyWords } from './table_view';
import { textsFor, type Texts } from './texts';
import { stepsText } from './turn_desk';

const ground = 'pw-ground-table';
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, calm() ? 150 : 450));

class TablePage {
  private readonly board: LiveBoard;
  private readonly strips: Record<Side, Strip> = { light: new Strip(), dark: new Strip() };
  private readonly status = element('p', { class: 'turn-status', role: 'status' });
  private readonly score = element('p', { class: 'score' });
  private readonly why = element('p', { class: 'quiet-note' });
  private readonly refusal: RefusalBox;
  private readonly actions = element('div', { class: 'controls actions' });
  private readonly picker: DicePicker;
  private readonly write: HTMLFormElement;
  private readonly ask: AskPanel;
  private readonly sheet: Sheet;
  private readonly fair = element('div', { class: 'fair' });
  private readonly boardArea = element('section', { class: 'table-board' });
  private readonly game: TableGame;
  private table: TableAnswer | null = null;
  private turn: TurnAnswer | null = null;
  private bottom: Side = 'light';
  private showing = 0; // counts what is shown, so that a late answer does not overtake
  private shortcuts: Record<string, () => void> = {};
  private dicePending: ((first: number, second: number) => void) | null = null;

  constructor(
    private readonly engine: Engine,
    private readonly texts: Texts,
  ) {
    this.board = new LiveBoard(ground, texts);
    this.game = new TableGame(engine, usual([texts.side.light, texts.side.dark]));
    this.refusal = new RefusalBox(texts);
    this.picker = new DicePicker(texts, (first, second) => this.dicePending?.(first, second));
    this.write = playField(texts, (play) => void this.writePlay(play));
    this.ask = new AskPanel(
      engine,
      texts,
      () => this.table?.names ?? [texts.side.light, texts.side.dark],
      () => this.view(),
    );
    this.sheet = new Sheet(texts);
    this.board.onMove = (from, to) => void this.move(from, to);
    this.board.onPick = (place) => {
      this.status.textContent = place === null ? texts.putBack : texts.pickedUp(place === 25 ? 'bar' : String(place));
    };
    this.game.onElsewhere = () => {
      void this.refresh().then(() => (this.why.textContent = texts.otherTab));
    };
    this.layOut();
    document.addEventListener('keydown', (event) => this.key(event));
  }

  async start(): Promise<void> {
    await drawGround(this.engine, ground);
    if (!this.game.load()) await this.game.begin(this.game.agreement);
    if (this.game.agreement.program) this.bottom = other(this.game.agreement.program);
    await this.refresh();
    if (this.game.record.length < 4) this.newGame();
  }

  private view(): Record<string, string> {
    const [light, dark] = this.table?.names ?? ['light', 'dark'];
    return { light, dark, bottom: this.bottom, margins: 'no' };
  }
  private name(side: Side): string {
    return this.table?.names[side === 'light' ? 0 : 1] ?? this.texts.side[side];
  }

  // ---- the page ---------------------------------------------------------------------------------

  private layOut(): void {
    const { texts } = this;
    const file = element('input', { type: 'file', class: 'spoken', tabindex: '-1', 'aria-hidden': 'true', accept: '.txt,text/plain' });
    file.addEventListener('change', () => {
      void file.files?.[0]?.text().then((text) => this.open(text)).then(() => (file.value = ''));
    });
    document.title = texts.table;
    const masthead = document.querySelector('.masthead');
    masthead?.querySelector('h1')?.replaceChildren(texts.table);
    masthead?.append(
      element(
        'nav',
        { 'aria-label': texts.settings },
        button(texts.newGame, () => this.newGame(), { class: 'theme' }),
        button(texts.turnBoard, () => this.turnBoard(), { class: 'theme' }),
        button(texts.fullBoard, () => this.present(), { class: 'theme present' }),
        themeButton(texts),
        languageSelect(texts),
      ),
    );
    this.boardArea.append(this.strips.dark.root, this.board.root, this.strips.light.root);
    const side = element(
      'section',
      { class: 'table-side', 'aria-label': texts.table },
      this.score,
      this.status,
      this.why,
      this.refusal.root,
      this.picker.root,
      this.actions,
      this.write,
      this.ask.root,
      this.sheet.root,
      element(
        'p',
        { class: 'controls small' },
        button(texts.undoTurn, () => void this.undo(), { class: 'quiet', title: texts.undoHint }),
        button(texts.saveRecord, () => saveFile('table.txt', 'text/plain', this.game.toText()), { class: 'quiet' }),
        button(texts.openRecord, () => file.click(), { class: 'quiet' }),
        file,
      ),
      this.fair,
      new DiceCheck(this.engine, texts).root,
      element('details', {}, element('summary', {}, texts.keys), ...texts.keysText.map((line) => element('p', { class: 'quiet-note' }, line))),
    );
    document.getElementById('main')?.replaceChildren(element('div', { class: 'table-page' }, this.boardArea, side));
  }

  private turnBoard(): void {
    this.bottom = other(this.bottom);
    void this.refresh();
  }

  /** The large board: everything but the board and what must be pressed steps back. */
  private present(): void {
    const on = document.documentElement.classList.toggle('presenting');
    if (on) void document.documentElement.requestFullscreen?.().catch(() => undefined);
    else if (document.fullscreenElement) void document.exitFullscreen();
  }

  private newGame(): void {
    askForGame(this.texts, this.game.agreement, (agreement: Agreement) => {
      this.bottom = agreement.program ? other(agreement.program) : 'light';
      void this.game.begin(agreement).then(() => this.refresh());
    });
  }

  private async open(text: string): Promise<void> {
    const answer = await this.game.open(text);
    if (answer.fault) {
      this.refusal.show({ allowed: false, proof: this.texts.badRecord(answer.fault.line + 1, answer.fault.proof) });
      return;
    }
    if (this.game.agreement.program) this.bottom = other(this.game.agreement.program);
    await this.refresh();
  }

  // ---- showing ----------------------------------------------------------------------------------

  private async refresh(): Promise<void> {
    await this.show(await this.game.table());
  }

  private programsTurn(table: TableAnswer): boolean {
    const { program } = this.game.agreement;
    if (!program || !table.turn || table.phase === 'over' || table.phase === 'opening') return false;
    return (table.phase === 'offered' ? other(table.turn) : table.turn) === program;
  }

  private async show(table: TableAnswer): Promise<void> {
    const at = ++this.showing;
    const programs = this.programsTurn(table);
    const plays = table.phase === 'to-play' && !programs;
    this.table = table;
    const offered = table.phase === 'offered' || table.phase === 'beavered' ? table.turn : undefined;
    const [picture, turn] = await Promise.all([
      this.engine.picture({ position: table.position, ...this.view(), offered }),
      plays ? this.engine.turn({ position: table.before, moves: table.moves, ...this.view() }) : null,
    ]);
    if (at !== this.showing) return;
    this.turn = turn;
    const mover = plays ? (table.turn ?? null) : null;
    this.board.show({
      picture,
      camps: table.camps,
      names: table.names,
      mover,
      reader: this.bottom,
      can: turn?.can ?? [],
      title: table.title,
      spoken: table.spoken,
    });
    const upper = this.strips[other(this.bottom)];
    upper.show(this.texts, table, other(this.bottom));
    this.strips[this.bottom].show(this.texts, table, this.bottom);
    // Put in place again only when the board was turned: what is moved in a page loses the focus.
    const inOrder = [upper.root, this.board.root, this.strips[this.bottom].root];
    if (inOrder.some((each, i) => this.boardArea.children[i] !== each)) this.boardArea.replaceChildren(...inOrder);
    this.refusal.clear();
    this.why.textContent = this.game.kept ? '' : this.texts.notKept;
    this.score.textContent = scoreWords(this.texts, table);
    this.sheet.show(this.texts, table);
    this.showFairness(table);
    this.offerActions(table, programs);
    if (!table.moves) void this.ask.about(table.position);
    if (programs) await this.programActs();
  }

  /** What may be done now, in words and buttons. */
  private offerActions(table: TableAnswer, programs: boolean): void {
    const { texts } = this;
    const real = this.game.agreement.dice === 'real';
    const mover = table.turn ?? 'light';
    const made: HTMLButtonElement[] = [];
    this.shortcuts = {};
    this.dicePending = null;
    this.picker.root.hidden = true;
    this.write.hidden = true;
    const add = (text: string, key: string, act: () => void, attributes = {}) => {
      const one = button(text, act, attributes);
      made.push(one);
      if (key) this.shortcuts[key] = () => one.click();
      return one;
    };
    const askDice = (first: string, second: string, act: (a: number, b: number) => void) => {
      this.picker.root.hidden = false;
      this.picker.ask(first, second);
      this.dicePending = act;
    };
    const main = { class: 'next' };
    let words = '';
    if (table.phase === 'opening') {
      words = table.ties ? texts.tied : texts.opening;
      const act = (a: number, b: number) => void this.act([`opening ${a} ${b}`]);
      if (real) askDice(texts.openingDie(this.name('light')), texts.openingDie(this.name('dark')), act);
      else add(texts.roll, 'r', () => void this.throwDice('opening'), main);
    } else if (programs) {
      words = texts.thinking;
    } else if (table.phase === 'to-roll') {
      words = texts.toRoll(this.name(mover));
      if (real) askDice(texts.diceFor(this.name(mover)), texts.diceFor(this.name(mover)), (a, b) => void this.act([`throw ${a} ${b}`]));
      else add(texts.roll, 'r', () => void this.throwDice('throw'), main);
      if (table.mayOffer && !table.offerDead) add(texts.double(table.cube * 2), 'd', () => void this.act(['offer']));
    } else if (table.phase === 'offered') {
      words = texts.offered(this.name(mover), table.cube * 2, this.name(other(mover)));
      add(texts.take, 't', () => void this.act(['take']), main);
      add(texts.drop, '', () => void this.act(['drop']));
      if (table.beavers) add(texts.beaver, '', () => void this.act(['beaver']));
    } else if (table.phase === 'beavered') {
      words = texts.beavered(this.name(other(mover)), this.name(mover));
      add(texts.acceptBeaver, 't', () => void this.act(['take']), main);
      add(texts.drop, '', () => void this.act(['drop']));
    } else if (table.phase === 'to-play') {
      words = this.turnWords(table);
      this.write.hidden = false;
      const back = add(texts.takeBack, 'b', () => void this.takeBack(false));
      const restart = add(texts.takeAllBack, '', () => void this.takeBack(true));
      for (const each of [back, restart]) setEnabled(each, table.moves !== '');
      const lift = add(texts.lift, 'l', () => void this.act(['lift']), main);
      // At a real table anybody may lift the dice at any time, and hear why not.
      setEnabled(lift, this.game.agreement.referee === 'at-end' || (this.turn?.complete ?? false));
    } else {
      const result = table.result;
      words = [result?.words, result?.scoreWords, result?.matchOver ? texts.over : ''].filter(Boolean).join(' ');
      if (!result?.matchOver) add(texts.nextGame, 'r', () => void this.act(['next']), main);
      add(texts.newGame, '', () => this.newGame());
    }
    const last = table.phase === 'to-roll' || programs ? table.sheet.at(-1) : undefined;
    const before = last?.side ? `${this.name(last.side)}: ${last.text}. ` : '';
    this.status.textContent = before + words;
    this.actions.replaceChildren(...made);
  }

  private turnWords(table: TableAnswer): string {
    const { texts, turn } = this;
    const who = this.name(table.turn ?? 'light');
    const roll = table.roll ?? '';
    if (turn?.complete) return table.moves ? texts.complete(who, turn.play ?? '') : texts.noMove(who, roll);
    return texts.toPlay(who, roll, turn?.left.join('-') ?? '');
  }

  private showFairness(table: TableAnswer): void {
    const { texts } = this;
    const sealed = this.game.record.find((line) => line.startsWith('sealed '))?.slice(7);
    if (!sealed) {
      this.fair.replaceChildren();
      return;
    }
    const ended = table.phase === 'over' && (table.result?.matchOver ?? true);
    const verdict = element('p', { role: 'status' });
    const check = button(
      texts.checkDice,
      () => {
        void this.engine.verify([`seed ${this.game.seed}`, ...this.game.record]).then((answer) => {
          verdict.textContent = `${texts.seedIs(this.game.seed)}. ${verifyWords(texts, answer)}`;
        });
      },
      { class: 'quiet' },
    );
    this.fair.replaceChildren(
      element(
        'details',
        {},
        element('summary', {}, texts.dice),
        element('p', { class: 'digest' }, texts.seal(sealed)),
        ended ? check : element('p', { class: 'quiet-note' }, texts.showSeed),
        verdict,
      ),
    );
  }

  // ---- acting -----------------------------------------------------------------------------------

  private async act(events: string[]): Promise<void> {
    const answer = await this.game.add(events);
    if (answer.fault) this.refuse({ ...answer.fault, allowed: false });
    else await this.show(answer);
  }

  private refuse(ruling: Ruling): void {
    this.board.dropBack();
    this.refusal.show(ruling);
  }

  private async throwDice(word: 'opening' | 'throw'): Promise<void> {
    const dice = await this.game.dice(this.table?.throws ?? 0);
    await this.act([`${word} ${dice[0]} ${dice[1]}`]);
  }

  private async move(from: Place, to: Place): Promise<void> {
    const { table, turn } = this;
    if (!table || !turn || table.phase !== 'to-play') return;
    const place = (at: Place) => (at === 25 ? 'bar' : at === 0 ? 'off' : String(at));
    const journey = turn.can.find((each) => each.from === from && each.to === to);
    if (journey) {
      await this.act(stepsText(journey.steps).split(' ').map((step) => `move ${step}`));
    } else if (this.game.agreement.referee === 'at-end') {
      await this.act([`move ${place(from)}/${place(to)}`]);
    } else {
      const answer = await this.engine.turn({ position: table.before, moves: table.moves, from: place(from), to: place(to), ...this.view() });
      this.refuse(answer.refused ?? { allowed: false });
    }
  }

  private async writePlay(play: string): Promise<void> {
    const { table } = this;
    if (!table) return;
    const ruling = await this.engine.rule({ position: table.before, play, ...this.view() });
    if (!ruling.allowed) {
      const [fault] = ruling.faults ?? [];
      this.refuse(fault ? { allowed: false, proof: `${fault.reason}: ${fault.fix}.` } : ruling);
      return;
    }
    this.game.takeAllBack();
    await (ruling.play === 'no play' ? this.refresh() : this.act([`move ${ruling.play}`]));
    // What comes next is lifting the dice.
    this.actions.querySelector<HTMLButtonElement>('.next')?.focus();
  }

  private async takeBack(whole: boolean): Promise<void> {
    if (whole) this.game.takeAllBack();
    else this.game.takeBack();
    await this.refresh();
  }

  private async undo(): Promise<void> {
    if (!this.game.canUndo) return;
    await this.game.undo();
    await this.refresh();
  }

  /** One decision of the program's. Showing what it led to asks for the next one. */
  private async programActs(): Promise<void> {
    const at = this.showing;
    const decision = await this.engine.decision(this.game.record);
    await pause();
    if (at !== this.showing) return;
    if (decision.throws) {
      if (this.game.agreement.dice === 'program') return this.throwDice('throw');
      const who = this.name(this.game.agreement.program ?? 'dark');
      this.picker.root.hidden = false;
      this.picker.ask(this.texts.diceFor(who), this.texts.diceFor(who));
      this.dicePending = (a, b) => void this.act([`throw ${a} ${b}`]);
      this.status.textContent = this.texts.toRoll(who);
      return;
    }
    const [first = '', ...rest] = decision.events;
    if (first.startsWith('move ')) {
      // The checkers are seen to move before the dice are lifted.
      const moved = await this.game.add([first]);
      const [picture] = await Promise.all([this.engine.picture({ position: moved.position, ...this.view() }), pause()]);
      if (at !== this.showing) return;
      this.board.show({ picture, camps: moved.camps, names: moved.names, mover: null, reader: this.bottom, can: [], title: moved.title, spoken: moved.spoken });
      await pause();
      if (at !== this.showing) return;
      await this.act(rest);
    } else {
      await this.act([first, ...rest]);
    }
    if (first === 'offer' || first === 'take' || first === 'drop') this.why.textContent = decision.reason;
  }

  // ---- keys -------------------------------------------------------------------------------------

  private key(event: KeyboardEvent): void {
    if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]')) return;
    const target = event.target as HTMLElement;
    if (/^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName)) return;
    const key = event.key.toLowerCase();
    if (this.dicePending && this.picker.key(event.key)) event.preventDefault();
    else if (key === 'f') this.present();
    else if (key === 'escape') document.documentElement.classList.remove('presenting');
    else this.shortcuts[key]?.();
  }
}

const main = async (): Promise<void> => {
  const texts = textsFor(chosenLanguage());
  document.documentElement.lang = texts.language;
  await new TablePage(Engine.fromPage(), texts).start();
};

void main();
