// The form in which players agree on a game before it begins.
import type { Side } from './answers';
import { button, element, freshId } from './dom';
import type { Agreement } from './table_game';
import type { Texts } from './texts';

type Option = [value: string, words: string];

const choice = (label: string, name: string, options: Option[], chosen: string): HTMLElement => {
  const id = freshId();
  const select = element('select', { id, name }, ...options.map(([value, words]) => element('option', { value, selected: value === chosen }, words)));
  return element('p', { class: 'form-row' }, element('label', { for: id }, label), select);
};

const text = (label: string, name: string, value: string, hint = ''): HTMLElement => {
  const id = freshId();
  const input = element('input', { id, name, type: 'text', maxlength: '40', autocomplete: 'off', value });
  const row = element('p', { class: 'form-row' }, element('label', { for: id }, label), input);
  if (hint) {
    input.setAttribute('aria-describedby', `${id}-hint`);
    row.append(element('small', { id: `${id}-hint` }, hint));
  }
  return row;
};

/** Asks for an agreement. `done` is called with it, or never. */
export const askForGame = (texts: Texts, before: Agreement, done: (agreement: Agreement) => void): HTMLDialogElement => {
  const heading = freshId();
  const { light, dark } = texts.side;
  const program = before.program === null ? 'none' : before.program;
  const boxes = Object.entries(texts.houseNames).map(([name, words]) => {
    const usually = name === 'cube' || name === 'gammons';
    const on = usually ? !before.house.includes(`no-${name}`) : before.house.includes(name);
    return element('label', { class: 'check' }, element('input', { type: 'checkbox', name: `house-${name}`, checked: on }), words);
  });
  const form = element(
    'form',
    { method: 'dialog' },
    element('h2', { id: heading }, texts.newGame),
    choice(texts.players, 'program', [['none', texts.twoPeople], ['dark', texts.againstProgram(light)], ['light', texts.againstProgram(dark)]], program),
    text(texts.nameOf(light), 'light', before.names[0]),
    text(texts.nameOf(dark), 'dark', before.names[1]),
    choice(texts.matchTo, 'match', [...[1, 3, 5, 7, 9, 11, 13, 15, 21].map((n): Option => [`${n}`, `${n}`]), ['none', texts.forPoints]], before.match ? `${before.match}` : 'none'),
    choice(texts.dice, 'dice', [['program', texts.programDice], ['real', texts.realDice]], before.dice),
    choice(texts.referee, 'referee', [['at-once', texts.refereeAtOnce], ['at-end', texts.refereeAtEnd]], before.referee),
    element('fieldset', { class: 'house' }, element('legend', {}, texts.houseRules), ...boxes),
    text(texts.yourWords, 'words', '', texts.yourWordsHint),
    element(
      'p',
      { class: 'controls' },
      element('button', { type: 'submit', class: 'next' }, texts.begin),
      button(texts.cancel, () => dialog.close()),
    ),
  );
  const dialog = element('dialog', { class: 'form', 'aria-labelledby': heading }, form);
  form.addEventListener('submit', () => {
    const given = new FormData(form);
    const value = (name: string) => String(given.get(name) ?? '');
    const chosen = value('program');
    const side: Side | null = chosen === 'light' || chosen === 'dark' ? chosen : null;
    const named = (of: Side, otherwise: string) => (side === of ? texts.program : value(of).trim() || otherwise);
    const house = Object.keys(texts.houseNames).flatMap((name) => {
      const on = given.has(`house-${name}`);
      const usually = name === 'cube' || name === 'gammons';
      return on === usually ? [] : [usually ? `no-${name}` : name];
    });
    done({
      program: side,
      dice: value('dice') === 'real' ? 'real' : 'program',
      referee: value('referee') === 'at-end' ? 'at-end' : 'at-once',
      names: [named('light', light), named('dark', dark)],
      match: value('match') === 'none' ? null : Number(value('match')),
      house,
      words: value('words'),
    });
  });
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  return dialog;
};
