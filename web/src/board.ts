// A board that checkers can be moved on: by dragging, by tapping from and to, or by keyboard. It
// knows no rules: it shows what it is given and says what the player tries.
import type { Box, Camps, Journey, PictureAnswer, Place, Side } from './answers';
import { other } from './answers';
import { calm, element, freshId, svgElement, svgNodes } from './dom';
import type { Texts } from './texts';

export interface BoardState {
  picture: PictureAnswer;
  camps: Camps;
  names: [string, string];
  /** Whose checkers can be moved; null while nobody may move. */
  mover: Side | null;
  /** Whether checkers come from the tray too, and go anywhere: while a position is built. */
  free?: boolean;
  /** Whose numbers the places carry when read out. */
  reader: Side;
  can: Journey[];
  title: string;
  spoken: string;
}

const pickDistance = 6; // CSS pixels that a pointer may tremble before a tap becomes a drag
const placeName = (place: Place): string => (place === 25 ? 'bar' : place === 0 ? 'off' : String(place));

export class LiveBoard {
  readonly root: HTMLElement;
  /** The player tries to move a checker. */
  onMove: (from: Place, to: Place) => void = () => undefined;
  /** The player picks a checker up, or puts it back (null). */
  onPick: (place: Place | null) => void = () => undefined;

  private readonly svg: SVGElement;
  private readonly live = svgElement('g', { class: 'live' });
  private readonly hints = svgElement('g', { class: 'hints' });
  private readonly places = element('div', { class: 'places' });
  private readonly buttons: HTMLButtonElement[] = [];
  private readonly spoken: HTMLElement;
  private state: BoardState | null = null;
  private picked: Place | null = null;
  private focused: Place = 24;
  private landed = false; // the last move was a drag: the checker is where it belongs already
  private drag: { place: Place; use: SVGElement | null; x: number; y: number; moving: boolean } | null = null;

  constructor(ground: string, private readonly texts: Texts) {
    const description = freshId();
    this.spoken = element('p', { id: description, class: 'spoken' });
    this.svg = svgElement('svg', { class: 'board', 'aria-hidden': 'true', focusable: 'false' });
    this.svg.append(svgElement('use', { href: `#${ground}` }), this.hints, this.live);
    for (let place = 0; place <= 25; ++place) {
      const made = element('button', { type: 'button', class: 'place', 'data-place': placeName(place), tabindex: '-1' });
      // A pointer is followed on the whole board; a click without one comes from the keyboard.
      made.addEventListener('click', (event) => {
        if (event.detail === 0) this.choose(place);
      });
      made.addEventListener('focus', () => this.focusOn(place));
      this.buttons.push(made);
    }
    // In the order in which checkers travel.
    this.places.append(...[...this.buttons].reverse());
    this.root = element('div', { class: 'play-board', role: 'group', 'aria-describedby': description }, this.svg as unknown as Node, this.places, this.spoken);
    this.root.addEventListener('pointerdown', (event) => this.pointerDown(event));
    this.root.addEventListener('pointermove', (event) => this.pointerMove(event));
    this.root.addEventListener('pointerup', (event) => this.pointerUp(event));
    this.root.addEventListener('pointercancel', () => this.dropBack());
    this.root.addEventListener('keydown', (event) => this.key(event));
  }

  show(state: BoardState): void {
    const before = this.checkers();
    this.state = state;
    const { picture } = state;
    this.svg.setAttribute('viewBox', `0 0 ${picture.width} ${picture.height}`);
    this.drag = null;
    this.live.replaceChildren(...svgNodes(picture.svg));
    if (before.length > 0 && !this.landed) this.slide(before);
    this.landed = false;
    this.root.setAttribute('aria-label', this.texts.boardLabel(state.title));
    this.spoken.textContent = state.spoken;
    this.pick(null);
    this.layOut();
  }

  focus(): void {
    this.buttons[this.focused]?.focus();
  }

  // ---- what is on the board ---------------------------------------------------------------------

  private checkers(): SVGElement[] {
    return [...this.live.querySelectorAll<SVGElement>('use[data-at]')];
  }

  private get boxes(): Box[] {
    const state = this.state;
    return state ? state.picture[state.mover ?? state.reader] : [];
  }

  /** Puts the buttons over the places and says what stands there. */
  private layOut(): void {
    const state = this.state;
    if (!state) return;
    const { width, height } = state.picture;
    const side = state.mover ?? state.reader;
    this.boxes.forEach(([x, y, w, h], place) => {
      const made = this.buttons[place];
      if (!made) return;
      Object.assign(made.style, {
        left: `${(100 * x) / width}%`,
        top: `${(100 * y) / height}%`,
        width: `${(100 * w) / width}%`,
        height: `${(100 * h) / height}%`,
      });
      made.tabIndex = place === this.focused ? 0 : -1;
      made.setAttribute('aria-label', this.label(place, side, state));
      made.setAttribute('aria-pressed', String(place === this.picked));
    });
    this.root.classList.toggle('at-rest', state.mover === null);
  }

  private label(place: Place, side: Side, state: BoardState): string {
    const at = side === 'light' ? 0 : 1;
    const mine = state.camps[side][place] ?? 0;
    const theirs = place > 0 && place < 25 ? (state.camps[other(side)][25 - place] ?? 0) : 0;
    const stands = this.texts.placeLabel(placeName(place), mine, theirs, state.names[at], state.names[1 - at] ?? '');
    return this.targets().includes(place) ? `${stands}, ${this.texts.canLand}` : stands;
  }

  private targets(): Place[] {
    return this.state?.can.filter(({ from }) => from === this.picked).map(({ to }) => to) ?? [];
  }

  private owns(place: Place): boolean {
    const { state } = this;
    return !!state?.mover && (place !== 0 || !!state.free) && (state.camps[state.mover][place] ?? 0) > 0;
  }

  /** Slides each checker that changed its place from where one of its kind left. */
  private slide(before: SVGElement[]): void {
    if (calm()) return;
    const key = (use: SVGElement) => ['href', 'x', 'y'].map((name) => use.getAttribute(name)).join(' ');
    const stayed = new Set(before.map(key));
    const now = this.checkers();
    const kept = new Set(now.map(key));
    const left = before.filter((use) => !kept.has(key(use)));
    for (const use of now.filter((each) => !stayed.has(key(each)))) {
      const kind = (each: SVGElement) => each.dataset['at']?.split(' ')[0];
      const found = left.findIndex((each) => kind(each) === kind(use));
      const from = left.splice(found, found < 0 ? 0 : 1)[0];
      if (!from) continue;
      const by = (name: string) => Number(from.getAttribute(name)) - Number(use.getAttribute(name));
      use.animate([{ transform: `translate(${by('x')}px, ${by('y')}px)` }, { transform: 'none' }], {
        duration: 280,
        easing: 'ease-in-out',
      });
    }
  }

  // ---- picking up and putting down ---------------------------------------------------------------

  private pick(place: Place | null): void {
    this.picked = place;
    const outline = (at: Place, name: string) => {
      const [x, y, width, height] = this.boxes[at] ?? [0, 0, 0, 0];
      return svgElement('rect', { class: name, x, y, width, height, rx: 6 });
    };
    const shown = this.targets().map((to) => outline(to, 'target'));
    if (place !== null) shown.push(outline(place, 'source'));
    this.hints.replaceChildren(...shown);
    this.layOut();
  }

  /** One of two taps: a checker, then where it goes. */
  private choose(place: Place): void {
    if (!this.state?.mover) return;
    const from = this.picked;
    if (from === null) {
      if (!this.owns(place)) return;
      this.pick(place);
      this.onPick(place);
    } else if (from === place) {
      this.pick(null);
      this.onPick(null);
    } else {
      this.pick(null);
      this.onMove(from, place);
    }
  }

  private focusOn(place: Place): void {
    this.focused = place;
    this.buttons.forEach((each, at) => (each.tabIndex = at === place ? 0 : -1));
  }

  private key(event: KeyboardEvent): void {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === 'Escape' && this.picked !== null) {
      this.pick(null);
      this.onPick(null);
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    const way = ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] } as const)[event.key as 'ArrowLeft'];
    if (!way) return;
    event.preventDefault();
    event.stopPropagation();
    const middle = ([x, y, w, h]: Box) => [x + w / 2, y + h / 2] as const;
    const [x, y] = middle(this.boxes[this.focused] ?? [0, 0, 0, 0]);
    let best: { place: Place; cost: number } | null = null;
    this.boxes.forEach((box, place) => {
      const [px, py] = middle(box);
      const along = (px - x) * way[0] + (py - y) * way[1];
      const aside = Math.abs((px - x) * way[1]) + Math.abs((py - y) * way[0]);
      if (along < 5) return;
      const cost = along + 1.2 * aside;
      if (!best || cost < best.cost) best = { place, cost };
    });
    if (best) this.buttons[(best as { place: Place }).place]?.focus();
  }

  // ---- pointers ---------------------------------------------------------------------------------

  private spot(event: PointerEvent): [number, number] {
    const box = this.svg.getBoundingClientRect();
    const scale = (this.state?.picture.width ?? 0) / (box.width || 1);
    return [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
  }

  private placeAt([x, y]: [number, number]): Place | null {
    const found = this.boxes.findIndex(([bx, by, w, h]) => x >= bx && x <= bx + w && y >= by && y <= by + h);
    return found < 0 ? null : found;
  }

  private pointerDown(event: PointerEvent): void {
    if (!this.state?.mover || event.button !== 0) return;
    const place = this.placeAt(this.spot(event));
    if (place === null) return;
    event.preventDefault();
    this.buttons[place]?.focus({ preventScroll: true });
    const stack = this.live.querySelectorAll<SVGElement>(`use[data-at="${this.state.mover} ${placeName(place)}"]`);
    const use = this.owns(place) ? (stack[stack.length - 1] ?? null) : null;
    this.drag = { place, use, x: event.clientX, y: event.clientY, moving: false };
    // A pointer that tests make up cannot be captured; it is followed all the same.
    try {
      this.root.setPointerCapture(event.pointerId);
    } catch {
      return;
    }
  }

  private pointerMove(event: PointerEvent): void {
    const { drag } = this;
    if (!drag?.use) return;
    if (!drag.moving) {
      if (Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < pickDistance) return;
      drag.moving = true;
      this.pick(drag.place);
      drag.use.classList.add('in-hand');
      this.live.append(drag.use);
    }
    const [x, y] = this.spot(event);
    drag.use.setAttribute('x', x.toFixed(1));
    drag.use.setAttribute('y', y.toFixed(1));
  }

  private pointerUp(event: PointerEvent): void {
    const { drag } = this;
    if (!drag) return;
    this.drag = null;
    const place = this.placeAt(this.spot(event));
    if (!drag.moving) {
      if (place !== null) this.choose(place);
      return;
    }
    if (place === null || place === drag.place) {
      this.dropBack();
      return;
    }
    this.pick(null);
    this.landed = true;
    this.onMove(drag.place, place);
  }

  /** Puts a checker in hand back where it was. */
  dropBack(): void {
    this.drag = null;
    this.landed = false;
    const { state } = this;
    if (!state) return;
    const before = this.checkers();
    this.live.replaceChildren(...svgNodes(state.picture.svg));
    this.slide(before);
    this.pick(null);
  }
}
