import type { StaffToNotate } from '../model/notation.js';

/** A clef: its sign, the line that it stands on (from below), and by how many octaves it is shifted. */
export interface Clef {
  readonly shape: 'G' | 'C' | 'F' | 'perc';
  readonly line: number;
  readonly octaves: -1 | 0 | 1;
}

const treble: Clef = { shape: 'G', line: 2, octaves: 0 };
const alto: Clef = { shape: 'C', line: 3, octaves: 0 };
const bass: Clef = { shape: 'F', line: 4, octaves: 0 };
const percussion: Clef = { shape: 'perc', line: 3, octaves: 0 };

/** Names of the viola, English, Italian and German, French (common practice, no source). */
const violas = /\b(?:violas?|viole|bratschen?|altos?)\b/iu;
/** Parts that are named alto, and written in treble clef. */
const otherAltos =
  /\b(?:flutes?|flöten?|flauti?|sax\w*|clarinets?|klarinetten?|recorders?|horns?|trombones?|voices?|choir)\b/iu;

const MIDDLE_C = 60;
/** E6 stands on the third ledger line above the treble staff, F6 above it. */
const HIGHEST_IN_TREBLE = 89;
/** A1 stands on the third ledger line below the bass staff, G1 below it. */
const LOWEST_IN_BASS = 31;

/**
 * The clef of a part: by its name for violas, otherwise treble or bass by its mean pitch; shifted by an octave where
 * most of its notes would stand more than three ledger lines away.
 */
export function clefOf({ label, notes, percussion: isPercussion }: StaffToNotate): Clef {
  if (isPercussion) return percussion;
  if (violas.test(label) && !otherAltos.test(label)) return alto;
  const mean = notes.reduce((sum, { pitch }) => sum + pitch, 0) / notes.length;
  if (notes.length === 0 || mean >= MIDDLE_C) {
    const high = notes.filter(({ pitch }) => pitch > HIGHEST_IN_TREBLE).length;
    return 2 * high > notes.length ? { ...treble, octaves: 1 } : treble;
  }
  const low = notes.filter(({ pitch }) => pitch < LOWEST_IN_BASS).length;
  return 2 * low > notes.length ? { ...bass, octaves: -1 } : bass;
}

/** Steps from the treble clef's bottom line (E4), which is where a percussion staff has its pitches. */
export function trebleLocation(step: string, octave: number): number {
  return 7 * (octave - 4) + 'cdefgab'.indexOf(step) - 2;
}
