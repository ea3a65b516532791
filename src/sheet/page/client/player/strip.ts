/** What the strip at the foot of the page says and asks for. */
export interface Strip {
  readonly element: HTMLElement;
  readonly turn: HTMLButtonElement;
  readonly fromNote: HTMLButtonElement;
  readonly mark: HTMLButtonElement;
  readonly unmark: HTMLButtonElement;
  readonly loudness: HTMLInputElement;
  /** Whether single keys are commands. */
  readonly keys: HTMLInputElement;
  say(state: { readonly isOn: boolean; readonly place: string; readonly again: string | undefined }): void;
  askForNote(): void;
  fail(sentence: string): void;
}

/** Loudness at first, in percent: a quarter of the amplitude is 12 dB less, for whoever wears headphones. */
export const firstLoudness = 25;

/** What keys do, as it stands on the page. */
const keyTexts = [
  ['H', 'hear, or hush'],
  ['Enter', 'hear from the note that is told of; so does a double click on it'],
  ['B', 'hear its bar again and again; of another bar, all up to it'],
  ['U', 'unmark the bars'],
  [', .', 'softer, louder'],
] as const;

/** A strip of words: none of it is on the page before there is a sound. */
export function stripFor(seconds: number, bytes: number): Strip {
  const turn = button('Hear it', 'H');
  const fromNote = button('From this note', 'Enter');
  const mark = button('This bar again', 'B');
  const unmark = button('Go on past the marks', 'U');
  unmark.hidden = true;
  const place = made('span', { className: 'heard-place' });
  place.setAttribute('role', 'timer');
  place.setAttribute('aria-label', 'heard now');
  const loudness = made('input', { type: 'range', min: '0', max: '100', value: `${firstLoudness}` });
  const keys = made('input', { type: 'checkbox', checked: true });
  const minutes = `${Math.floor(seconds / 60)}:${`${Math.floor(seconds % 60)}`.padStart(2, '0')}`;
  const list = made('ul', {});
  list.append(
    ...keyTexts.map(([key, does]) => {
      const item = made('li', {});
      const name = made('kbd', { textContent: key });
      item.append(name, ` ${does}`);
      return item;
    }),
  );
  const more = made('details', {});
  more.append(
    made('summary', { textContent: 'Keys' }),
    list,
    labelled('single keys are commands', keys),
    made('p', { textContent: `${minutes}, ${(bytes / 1e6).toFixed(1)} MB of this page` }),
  );
  const caution = made('small', { textContent: 'Begin softly, above all with headphones.' });
  const element = made('section', { className: 'heard-strip' });
  element.setAttribute('aria-label', 'The sound of this music');
  element.append(turn, fromNote, mark, unmark, place, labelled('how loud', loudness), caution, more);
  // a click here means no note, and leaves the one that is told of
  element.addEventListener('click', (event) => event.stopPropagation());
  return {
    element,
    turn,
    fromNote,
    mark,
    unmark,
    loudness,
    keys,
    say({ isOn, place: at, again }) {
      set(turn, isOn ? 'Hush' : 'Hear it');
      set(place, again === undefined ? at : `${at}; ${again} again and again`);
      unmark.hidden = again === undefined;
    },
    askForNote: () => set(place, 'point at a note first, or reach it with Tab'),
    fail(sentence) {
      place.removeAttribute('aria-label');
      place.setAttribute('role', 'alert');
      set(place, sentence);
      for (const one of [turn, fromNote, mark]) one.disabled = true;
    },
  };
}

function set(element: HTMLElement, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

function made<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  values: Partial<HTMLElementTagNameMap[Name]>,
): HTMLElementTagNameMap[Name] {
  return Object.assign(document.createElement(name), values);
}

function labelled(text: string, input: HTMLInputElement): HTMLLabelElement {
  const label = document.createElement('label');
  if (input.type === 'checkbox') label.append(input, ` ${text}`);
  else label.append(`${text} `, input);
  return label;
}

function button(text: string, key: string): HTMLButtonElement {
  const one = made('button', { type: 'button', textContent: text });
  one.setAttribute('aria-keyshortcuts', key);
  return one;
}
