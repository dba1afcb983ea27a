// <pointwright-board>: a position, or a board to play on, in any web page. The page around it sees
// one element; everything else is in its shadow.
import { element, svgElement, svgNodes } from './dom';
import { Engine, isAnswered } from './engine';
import { Takeover } from './takeover';
import { textsFor } from './texts';

/** A file of this package. */
const beside = (name: string): URL => new URL(name, import.meta.url);
const fetched = async (name: string): Promise<Response> => {
  const answer = await fetch(beside(name));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return answer;
};

// One engine and one style for all boards of a page, from the first that needs them.
let engine: Promise<Engine> | null = null;
let sheet: Promise<CSSStyleSheet> | null = null;
const startEngine = async (): Promise<Engine> => {
  const [worker, bytes] = await Promise.all([fetched('worker.js'), fetched('engine.wasm')]);
  // From a blob, so that the package may lie on another server than the page.
  const url = URL.createObjectURL(new Blob([await worker.text()], { type: 'text/javascript' }));
  return Engine.start(new Worker(url), await bytes.arrayBuffer());
};
const loadSheet = async (): Promise<CSSStyleSheet> => {
  const made = new CSSStyleSheet();
  await made.replace(await (await fetched('board.css')).text());
  return made;
};

const shown = ['position', 'light', 'dark', 'bottom', 'home', 'numbering', 'playable', 'theme', 'lang'];

export class PointwrightBoard extends HTMLElement {
  static readonly observedAttributes = shown;
  private readonly inside = this.attachShadow({ mode: 'open' });
  private drawing = 0;
  private planned = false;

  get position(): string {
    return this.getAttribute('position') ?? '';
  }
  set position(line: string) {
    this.setAttribute('position', line);
  }
  get playable(): boolean {
    return this.hasAttribute('playable');
  }
  set playable(on: boolean) {
    this.toggleAttribute('playable', on);
  }

  connectedCallback(): void {
    this.plan();
  }
  attributeChangedCallback(): void {
    this.plan();
  }

  /** Draws once, however many attributes change. */
  private plan(): void {
    if (this.planned || !this.isConnected) return;
    this.planned = true;
    queueMicrotask(() => {
      this.planned = false;
      this.draw().catch((error: unknown) => this.fail(String(error)));
    });
  }

  private view(): Record<string, string> {
    const view: Record<string, string> = {};
    for (const name of ['light', 'dark', 'bottom', 'home', 'numbering']) {
      const value = this.getAttribute(name);
      if (value) view[name] = value;
    }
    return view;
  }

  private async draw(): Promise<void> {
    const at = ++this.drawing;
    const [door, style] = await Promise.all([(engine ??= startEngine()), (sheet ??= loadSheet())]);
    const { position } = this;
    const view = this.view();
    const about = await door.position({ position, ...view });
    if (at !== this.drawing) return;
    this.inside.adoptedStyleSheets = [style];
    if (!isAnswered(about)) {
      this.fail(about.faults?.map(({ reason }) => reason).join('; ') ?? about.error?.reason ?? '');
      return;
    }
    if (this.playable) await this.drawPlayable(door, position, view, at);
    else await this.drawStill(door, position, view, at);
    if (at === this.drawing) this.dispatchEvent(new Event('pointwright-drawn'));
  }

  private async drawStill(door: Engine, position: string, view: Record<string, string>, at: number): Promise<void> {
    const [{ ground, figures }, picture, about] = await Promise.all([
      door.ground(view),
      door.picture({ position, ...view }),
      door.position({ position, ...view }),
    ]);
    if (at !== this.drawing) return;
    const svg = svgElement('svg', {
      class: 'board',
      viewBox: `0 0 ${picture.width} ${picture.height}`,
      role: 'img',
      'aria-label': `${about.title}. ${about.spoken}`,
    });
    const defs = svgElement('defs');
    defs.append(...svgNodes(figures));
    svg.append(defs, ...svgNodes(ground), ...svgNodes(picture.svg));
    this.inside.replaceChildren(svg);
  }

  private async drawPlayable(door: Engine, position: string, seen: Record<string, string>, at: number): Promise<void> {
    const texts = textsFor(this.lang || document.documentElement.lang || navigator.language);
    const view = { ...seen, margins: 'no' };
    const { ground, figures } = await door.ground(view);
    if (at !== this.drawing) return;
    const group = svgElement('g', { id: 'pw-ground' });
    group.append(...svgNodes(ground));
    const defs = svgElement('defs');
    defs.append(...svgNodes(figures), group);
    const shared = svgElement('svg', { class: 'shared', width: 0, height: 0, 'aria-hidden': 'true' });
    shared.append(defs);
    const names: [string, string] = [seen['light'] ?? texts.side.light, seen['dark'] ?? texts.side.dark];
    const board = new Takeover(door, texts, {
      position,
      seen: { names, view: { light: names[0], dark: names[1], ...view } },
      ground: 'pw-ground',
    });
    board.onClose = () => void board.begin();
    board.onPlayed = (play, after) =>
      this.dispatchEvent(new CustomEvent('pointwright-play', { detail: { play, position: after } }));
    this.inside.replaceChildren(shared, element('div', { class: 'scene taken-over' }, element('figure', {}, board.board.root), board.panel));
    await board.begin();
  }

  private fail(reason: string): void {
    this.inside.replaceChildren(element('p', { class: 'fault', role: 'alert' }, reason));
  }
}

if (!customElements.get('pointwright-board')) customElements.define('pointwright-board', PointwrightBoard);
