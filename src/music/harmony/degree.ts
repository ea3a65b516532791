import { degreeOfFifths, signs } from './fifths.js';
import type { Reading } from './fit.js';
import { scaleOf } from './keys.js';
import { fifthsOf, rootFifths } from './spelling.js';
import type { Key } from './types.js';

const numerals = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'];

/** The degree of a chord's root, counted on the major scale of the tonic; small letters where its third is minor. */
export function degreeOf(reading: Reading, key: Key): string {
  const { degree, alteration } = degreeOfFifths(rootFifths(reading, key));
  const numeral = numerals[degree - 1] ?? '';
  const { intervals } = reading.kind;
  const isMinor = intervals.includes(3) && !intervals.includes(4);
  return `${signs(alteration)}${isMinor ? numeral.toLowerCase() : numeral}`;
}

/**
 * Degrees that sound and are not of the key's own scale, rising: "♭3", "♯4". In minor, whose own scale is the natural
 * one, raised degrees that are those of the major scale carry a natural: "♮6", "♮7".
 */
export function alteredDegrees(
  pitchClasses: readonly number[],
  key: Key,
  reading: Reading | null,
): readonly string[] {
  const own = scaleOf(key);
  return pitchClasses
    .filter((pitchClass) => !own.has(pitchClass))
    .map((pitchClass) => degreeOfFifths(fifthsOf(pitchClass, key, reading)))
    .sort((a, b) => a.degree - b.degree || a.alteration - b.alteration)
    .map(({ degree, alteration }) => `${alteration === 0 ? '♮' : signs(alteration)}${degree}`);
}
