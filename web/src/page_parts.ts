// What the pages that are programs have in common: light and dark, the language, the ground.
import { button, element, storage, svgElement, svgNodes } from './dom';
import type { Engine } from './engine';
import type { Texts } from './texts';

const languageKey = 'pointwright:language';
const themeKey = 'pointwright-theme'; // the same as in the page of a course

/** The language that was asked for: by the address, earlier, or by the browser. */
export const chosenLanguage = (): string =>
  /^#(en|de)$/.exec(location.hash)?.[1] ?? storage.get(languageKey) ?? navigator.language;

export const languageSelect = (texts: Texts): HTMLSelectElement => {
  const made = element(
    'select',
    { class: 'language', 'aria-label': 'Language / Sprache' },
    element('option', { value: 'en', selected: texts.language === 'en' }, 'English'),
    element('option', { value: 'de', selected: texts.language === 'de' }, 'Deutsch'),
  );
  made.addEventListener('change', () => {
    storage.set(languageKey, made.value);
    if (/^#(en|de)$/.test(location.hash)) location.hash = made.value;
    location.reload();
  });
  return made;
};

export const themeButton = (texts: Texts): HTMLButtonElement => {
  const show = (theme: string | null) => {
    if (theme === 'light' || theme === 'dark') document.documentElement.dataset['theme'] = theme;
    const preferred = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
    made.setAttribute('aria-pressed', String((document.documentElement.dataset['theme'] ?? preferred) === 'dark'));
  };
  const made = button(
    texts.theme,
    () => {
      const theme = made.getAttribute('aria-pressed') === 'true' ? 'light' : 'dark';
      show(theme);
      storage.set(themeKey, theme);
    },
    { class: 'theme' },
  );
  show(storage.get(themeKey));
  return made;
};

/** Puts the figures and the ground of a board without margins into the page. */
export const drawGround = async (engine: Engine, id: string): Promise<void> => {
  const { ground, figures } = await engine.ground({ margins: 'no' });
  const group = svgElement('g', { id });
  group.append(...svgNodes(ground));
  document.querySelector('.shared defs')?.append(...svgNodes(figures), group);
};
