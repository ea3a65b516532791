import type { Spelling } from './spelling.js';
import type { StaffToNotate } from './types.js';

/** A clef: its sign, and the line that it stands on (from below). */
export interface Clef {
  readonly shape: 'G' | 'C' | 'F' | 'perc';
  readonly line: number;
  /** By how many octaves notes sound above where the sign alone (for percussion: a treble clef) would have them. */
  readonly octaves: number;
}

const treble: Clef = { shape: 'G', line: 2, octaves: 0 };
const alto: Clef = { shape: 'C', line: 3, octaves: 0 };
const bass: Clef = { shape: 'F', line: 4, octaves: 0 };
const percussion: Clef = { shape: 'perc', line: 3, octaves: 0 };

/** B4, the treble staff's middle line. */
const MIDDLE_LINE = 71;

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
 * most of its notes would stand more than three ledger lines away. Percussion stands as in a treble clef, in the
 * octave that brings its mean pitch nearest to the middle line, since its pitches are names of instruments.
 */
export function clefOf({ label, notes, percussion: isPercussion }: StaffToNotate): Clef {
  const mean = notes.reduce((sum, { pitch }) => sum + pitch, 0) / notes.length;
  if (isPercussion)
    return { ...percussion, octaves: notes.length === 0 ? 0 : Math.round((mean - MIDDLE_LINE) / 12) };
  if (violas.test(label) && !otherAltos.test(label)) return alto;
  if (notes.length === 0 || mean >= MIDDLE_C) {
    const high = notes.filter(({ pitch }) => pitch > HIGHEST_IN_TREBLE).length;
    return 2 * high > notes.length ? { ...treble, octaves: 1 } : treble;
  }
  const low = notes.filter(({ pitch }) => pitch < LOWEST_IN_BASS).length;
  return 2 * low > notes.length ? { ...bass, octaves: -1 } : bass;
}

/** Where a percussion note stands: steps above the bottom line (as MEI's `loc` counts). */
export function percussionLocation({ step, octave }: Spelling, { octaves }: Clef): number {
  return 7 * (octave - octaves - 4) + 'cdefgab'.indexOf(step) - 2;
}
