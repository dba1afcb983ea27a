// The bench: a position built by hand, checked while it is built, and given out as a line, a link,
// a picture or a block for a lesson. The position line is the state.
import type { Camps, Fault, Place, PositionAnswer, Side } from './answers';
import { AskPanel } from './ask';
import { LiveBoard } from './board';
import { button, element, freshId, saveFile, storage } from './dom';
import { Engine, isAnswered } from './engine';
import { chosenLanguage, drawGround, languageSelect, themeButton } from './page_parts';
import { textsFor, type Texts } from './texts';

const ground = 'pw-ground-bench';
const start = 'light 24x2 13x5 8x3 6x5; dark 24x2 13x5 8x3 6x5';
const key = 'pointwright:bench';

/** One side's checkers as a position line lists them. */
const campText = (side: Side, counts: number[]): string => {
  const parts: string[] = [];
  for (let place = 25; place >= 1; --place)
    if (counts[place]) parts.push(`${place === 25 ? 'bar' : place}x${counts[place]}`);
  return `${side} ${parts.length ? parts.join(' ') : 'offx15'}`;
};

/** The parts of a position line after its two sides. */
const restOf = (line: string): string[] => line.split(';').slice(2).map((part) => part.trim()).filter(Boolean);

class BenchPage {
  private readonly board: LiveBoard;
  private readonly line: HTMLInputElement;
  private readonly status = element('p', { class: 'turn-status', role: 'status' });
  private readonly faults = element('div', { class: 'refusal', role: 'alert' });
  private readonly link: HTMLInputElement;
  private readonly block: HTMLTextAreaElement;
  private readonly sides: Record<Side, HTMLInputElement>;
  private readonly ask: AskPanel;
  private camps: Camps = { light: [], dark: [] };
  private about: PositionAnswer | null = null;
  private mover: Side = 'light';
  private shown = 0;

  constructor(
    private readonly engine: Engine,
    private readonly texts: Texts,
  ) {
    const { bench } = texts;
    this.board = new LiveBoard(ground, texts);
    this.board.onMove = (from, to) => this.put(from, to);
    this.board.onPick = (place) => {
      this.status.textContent = place === null ? texts.putBack : texts.pickedUp(place === 25 ? 'bar' : place === 0 ? 'off' : String(place));
    };
    this.ask = new AskPanel(engine, texts, () => [texts.side.light, texts.side.dark], () => this.view());
    const field = (label: string, made: HTMLElement): HTMLElement => {
      made.id = freshId();
      return element('p', { class: 'form-row' }, element('label', { for: made.id }, label), made);
    };
    this.line = element('input', { type: 'text', autocomplete: 'off', spellcheck: 'false' });
    this.line.addEventListener('input', () => void this.read(this.line.value));
    this.link = element('input', { type: 'text', readonly: true });
    this.block = element('textarea', { rows: '4', readonly: true, spellcheck: 'false' });
    const radio = (side: Side): HTMLInputElement => {
      const made = element('input', { type: 'radio', name: 'side', value: side, checked: side === 'light' });
      made.addEventListener('change', () => {
        this.mover = side;
        void this.read(this.line.value);
      });
      return made;
    };
    this.sides = { light: radio('light'), dark: radio('dark') };
    document.title = bench.title;
    const masthead = document.querySelector('.masthead');
    masthead?.querySelector('h1')?.replaceChildren(bench.title);
    masthead?.append(element('nav', { 'aria-label': texts.settings }, themeButton(texts), languageSelect(texts)));
    const side = element(
      'section',
      { class: 'table-side', 'aria-label': bench.title },
      element('p', { class: 'quiet-note' }, bench.how),
      element(
        'fieldset',
        { class: 'house' },
        element('legend', {}, bench.whose),
        element('label', { class: 'check' }, this.sides.light, texts.side.light),
        element('label', { class: 'check' }, this.sides.dark, texts.side.dark),
      ),
      this.status,
      this.faults,
      element(
        'p',
        { class: 'controls' },
        button(bench.start, () => void this.read(start)),
        button(bench.empty, () => void this.read('light 1x1; dark 1x1')),
        button(bench.swap, () => this.swap()),
      ),
      field(bench.line, this.line),
      this.ask.root,
      element('h2', {}, bench.give),
      field(bench.link, this.link),
      field(bench.block, this.block),
      element(
        'p',
        { class: 'controls' },
        button('SVG', () => void this.saveSvg(), { class: 'quiet', 'aria-label': bench.save('SVG') }),
        button('PNG', () => void this.savePng(), { class: 'quiet', 'aria-label': bench.save('PNG') }),
      ),
    );
    document
      .getElementById('main')
      ?.replaceChildren(element('div', { class: 'table-page' }, element('section', { class: 'table-board' }, this.board.root), side));
    addEventListener('hashchange', () => void this.readHash());
  }

  async begin(): Promise<void> {
    await drawGround(this.engine, ground);
    if (!(await this.readHash())) await this.read(storage.get(key) ?? start);
  }

  private view(): Record<string, string> {
    return { light: this.texts.side.light, dark: this.texts.side.dark, bottom: 'light', margins: 'no' };
  }

  /** A link's position, if the address has one. */
  private async readHash(): Promise<boolean> {
    const text = decodeURIComponent(location.hash.slice(1)).replace(/_/g, ' ');
    if (!text.startsWith('light') && !text.startsWith('dark')) return false;
    await this.read(text);
    return true;
  }

  /** Shows what a line says, or what is wrong with it. */
  private async read(line: string): Promise<void> {
    const at = ++this.shown;
    if (this.line.value !== line) this.line.value = line;
    const about = await this.engine.position({ position: line || '-', ...this.view() });
    if (at !== this.shown) return;
    if (!isAnswered(about)) {
      this.showFaults(about.faults ?? []);
      return;
    }
    this.faults.replaceChildren();
    this.about = about;
    this.camps = about.camps;
    storage.set(key, about.position);
    const picture = await this.engine.picture({ position: about.position, ...this.view() });
    if (at !== this.shown) return;
    this.board.show({
      picture,
      camps: about.camps,
      names: [this.texts.side.light, this.texts.side.dark],
      mover: this.mover,
      free: true,
      reader: 'light',
      can: [],
      title: about.title,
      spoken: about.spoken,
    });
    this.status.textContent = this.texts.bench.stands(about.pips[0], about.pips[1], about.over);
    this.link.value = `${location.href.split('#')[0]}#${about.link}`;
    this.block.value = `\`\`\`board ${this.texts.bench.name}\n${about.position}\n\`\`\`\n`;
    await this.ask.about(about.position);
  }

  private showFaults(faults: Fault[]): void {
    this.faults.replaceChildren(
      ...faults.map(({ reason, fix }) => element('p', {}, element('strong', {}, `${reason}. `), `${fix}.`)),
    );
  }

  /** Puts a checker of the chosen side elsewhere; off is the tray. */
  private put(from: Place, to: Place): void {
    const counts = [...this.camps[this.mover]];
    counts[from] = (counts[from] ?? 0) - 1;
    counts[to] = (counts[to] ?? 0) + 1;
    const camps = { ...this.camps, [this.mover]: counts };
    const line = [campText('light', camps.light), campText('dark', camps.dark), ...restOf(this.line.value)].join('; ');
    void this.tryLine(line);
  }

  /** Takes a line if it can stand on a board; otherwise says why not and leaves the board alone. */
  private async tryLine(line: string): Promise<void> {
    const about = await this.engine.position({ position: line });
    if (isAnswered(about)) await this.read(about.position);
    else {
      this.board.dropBack();
      this.showFaults(about.faults ?? []);
    }
  }

  private swap(): void {
    const line = [campText('light', this.camps.dark), campText('dark', this.camps.light), ...restOf(this.line.value)].join('; ');
    void this.tryLine(line);
  }

  private async svg(): Promise<string> {
    const { svg } = await this.engine.diagram({ position: this.about?.position ?? start, light: this.texts.side.light, dark: this.texts.side.dark });
    return svg;
  }
  private async saveSvg(): Promise<void> {
    saveFile('position.svg', 'image/svg+xml', await this.svg());
  }
  private async savePng(): Promise<void> {
    const url = URL.createObjectURL(new Blob([await this.svg()], { type: 'image/svg+xml' }));
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = element('canvas');
    const scale = 2; // for screens and print
    canvas.width = image.width * scale;
    canvas.height = image.height * scale;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    URL.revokeObjectURL(url);
    const png = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (png) saveFile('position.png', 'image/png', png);
  }
}

const main = async (): Promise<void> => {
  const texts = textsFor(chosenLanguage());
  document.documentElement.lang = texts.language;
  await new BenchPage(Engine.fromPage(), texts).begin();
};

void main();
