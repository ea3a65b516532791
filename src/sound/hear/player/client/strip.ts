/** What the strip at the foot of the page says and asks for. */
export interface Strip {
  readonly element: HTMLElement;
  readonly turn: HTMLButtonElement;
  readonly unmark: HTMLButtonElement;
  readonly loudness: HTMLInputElement;
  say(state: { readonly isOn: boolean; readonly place: string; readonly again: string | undefined }): void;
  fail(sentence: string): void;
}

/** Loudness at first, in percent: half of the amplitude is 6 dB less, for whoever wears headphones. */
export const firstLoudness = 50;

/** A strip of words: none of it is on the page before there is a sound. */
export function stripFor(seconds: number, bytes: number): Strip {
  const turn = button('Hear it', 'H');
  const place = document.createElement('output');
  const unmark = button('Go on past the marks', 'U');
  unmark.hidden = true;
  const loudness = document.createElement('input');
  Object.assign(loudness, { type: 'range', min: '0', max: '100', value: `${firstLoudness}` });
  const label = document.createElement('label');
  label.append('how loud ', loudness);
  const hint = document.createElement('small');
  const size = `${Math.round(seconds)} s, ${(bytes / 1e6).toFixed(1)} MB`;
  hint.textContent = `${size}. Enter hears from a note, B marks its bar to be heard again, comma and full stop change how loud it is. Begin softly, above all with headphones.`;
  const element = document.createElement('section');
  element.className = 'heard-strip';
  element.setAttribute('aria-label', 'The sound of this music');
  element.append(turn, ' ', place, ' ', unmark, ' ', label, ' ', hint);
  return {
    element,
    turn,
    unmark,
    loudness,
    say({ isOn, place: at, again }) {
      const word = isOn ? 'Hush' : 'Hear it';
      if (turn.textContent !== word) turn.textContent = word;
      const text = again === undefined ? at : `${at}, ${again} again and again`;
      if (place.textContent !== text) place.textContent = text;
      unmark.hidden = again === undefined;
    },
    fail(sentence) {
      place.textContent = sentence;
      turn.disabled = true;
    },
  };
}

function button(text: string, key: string): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = text;
  made.setAttribute('aria-keyshortcuts', key);
  return made;
}
