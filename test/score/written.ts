// Short scores for tests: MusicXML with one note a word.
import { playScore, scoreToMidi } from '../../src/score/index.js';

const head = '<?xml version="1.0" encoding="UTF-8"?>\n';

export function encode(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** One part, four divisions a quarter. */
export function partwise(
  measures: readonly string[],
  partList = '<score-part id="P1"><part-name>Horn</part-name></score-part>',
): string {
  const bars = measures.map((inside, index) => {
    const first =
      index === 0
        ? '<attributes><divisions>4</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>'
        : '';
    return `<measure number="${index + 1}">${first}${inside}</measure>`;
  });
  return `${head}<score-partwise version="4.0"><part-list>${partList}</part-list><part id="P1">${bars.join('\n')}</part></score-partwise>`;
}

/** "C4/4", "F#5/8": step, sharp, octave, length in divisions (16ths); "R/4" is a rest. `inside` goes behind the duration. */
export function note(word: string, inside = '', attributes = ''): string {
  const [name = '', length = '4'] = word.split('/');
  if (name === 'R') return `<note><rest/><duration>${length}</duration></note>`;
  const [, step = 'C', sharp = '', octave = '4'] = /^([A-G])(#?)(\d)$/u.exec(name) ?? [];
  const alter = sharp === '' ? '' : '<alter>1</alter>';
  return `<note ${attributes}><pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch><duration>${length}</duration>${inside}</note>`;
}

export function notes(words: string): string {
  return words
    .split(' ')
    .map((word) => note(word))
    .join('');
}

export function direction(type: string, sound = ''): string {
  return `<direction><direction-type>${type}</direction-type>${sound}</direction>`;
}

/** Plays a score that must be right. */
export function played(text: string) {
  const { performance, diagnostics } = playScore(encode(text), 'test.musicxml');
  if (!performance) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return performance;
}

/** The notes of a score's first part, in quarters: "0 C4 1" is onset, MIDI note, written end. */
export function onsets(text: string): readonly (readonly [number, number])[] {
  const { parts, ppq } = played(text);
  return (parts[0]?.notes ?? []).map(({ tick, pitch }) => [Number((tick / ppq).toFixed(3)), pitch] as const);
}

/** The texts of the first part, each with its quarter. */
export function texts(text: string): readonly string[] {
  const { parts, ppq } = played(text);
  return (parts[0]?.texts ?? []).map((one) => `${Number((one.tick / ppq).toFixed(3))} ${one.text}`);
}

/** Codes of what is wrong with a score. */
export function codesOf(bytes: Uint8Array | string): readonly string[] {
  const { diagnostics } = scoreToMidi(typeof bytes === 'string' ? encode(bytes) : bytes, 'test.musicxml');
  return diagnostics.map(({ code }) => code);
}
