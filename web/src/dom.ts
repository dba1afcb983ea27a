// Small tools for making elements. Text is always set as text, never as markup.

type Attributes = Record<string, string | boolean | undefined>;

export const element = <K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] => {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, '');
    else if (typeof value === 'string') made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
};

export const button = (text: string, act: () => void, attributes: Attributes = {}): HTMLButtonElement => {
  const made = element('button', { type: 'button', ...attributes }, text);
  made.addEventListener('click', () => {
    if (made.getAttribute('aria-disabled') !== 'true') act();
  });
  return made;
};

/** Disabled, but still where the focus is, so that the keyboard does not lose its place. */
export const setEnabled = (made: HTMLButtonElement, enabled: boolean): void =>
  made.setAttribute('aria-disabled', String(!enabled));

export const svgElement = (tag: string, attributes: Record<string, string | number> = {}): SVGElement => {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  return made;
};

/** Nodes of SVG text that the engine wrote. */
export const svgNodes = (text: string): Node[] => {
  const parsed = new DOMParser().parseFromString(
    `<svg xmlns="http://www.w3.org/2000/svg">${text}</svg>`,
    'image/svg+xml',
  );
  return [...parsed.documentElement.childNodes].map((node) => document.importNode(node, true));
};

export const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

/** Storage that may be absent, as for some pages opened from disk. */
export const storage = {
  get(key: string): string | null {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  },
  set(key: string, value: string): boolean {
    try {
      localStorage.setItem(key, value);
      return true;
    } catch {
      return false;
    }
  },
  remove(key: string): void {
    try {
      localStorage.removeItem(key);
    } catch {
      // Then there was nothing to remove.
    }
  },
};

/** Gives the reader a file. */
export const saveFile = (name: string, type: string, content: BlobPart): void => {
  const url = URL.createObjectURL(new Blob([content], { type }));
  element('a', { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
};

let ids = 0;
export const freshId = (): string => `pw-made-${++ids}`;
