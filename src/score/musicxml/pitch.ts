import { child, numberAt, textAt, type XmlElement } from '../xml/element.js';

const steps: ReadonlyMap<string, number> = new Map([
  ['C', 0],
  ['D', 2],
  ['E', 4],
  ['F', 5],
  ['G', 7],
  ['A', 9],
  ['B', 11],
]);

/** A pitch in semitones as MIDI counts them, C4 is 60; not whole for microtones. undefined where it says none. */
export function semitonesOf(element: XmlElement | undefined, prefix = ''): number | undefined {
  const step = steps.get(textAt(element, `${prefix}step`) ?? '');
  const octave = numberAt(element, `${prefix}octave`);
  if (step === undefined || octave === undefined) return undefined;
  return 12 * (octave + 1) + step + (numberAt(element, 'alter') ?? 0);
}

/** How far the sounding pitch lies above the written one, and whether it is doubled an octave below or above. */
export interface Transposition {
  readonly semitones: number;
  readonly double: -12 | 0 | 12;
}

export const atPitch: Transposition = { semitones: 0, double: 0 };

/** MusicXML 4.0, `transpose`: chromatic semitones and octaves, from written to sounding. */
export function readTransposition(transpose: XmlElement): Transposition {
  const semitones =
    (numberAt(transpose, 'chromatic') ?? 0) + 12 * (numberAt(transpose, 'octave-change') ?? 0);
  const double = child(transpose, 'double');
  if (!double) return { semitones, double: 0 };
  return { semitones, double: double.attributes.get('above') === 'yes' ? 12 : -12 };
}
