/** A pitch as it is written. */
export interface Spelling {
  readonly step: 'c' | 'd' | 'e' | 'f' | 'g' | 'a' | 'b';
  /** In semitones: −2 double flat … 2 double sharp. */
  readonly alter: number;
  /** Of the written step: C♭4 sounds below C4. Middle C begins octave 4. */
  readonly octave: number;
}

/** The line of fifths from F; C is 0, and seven fifths further is the same step raised by a semitone. */
const steps = ['f', 'c', 'g', 'd', 'a', 'e', 'b'] as const;
const semitones = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 } as const;

/** A key's tones reach from one fifth below its major tonic to five above; chromatic ones lie around them. */
const LOWEST = -3;

/**
 * Spells a pitch by a key signature: its own tones as the signature has them, and of the others the two next below
 * on the line of fifths (in C: B♭, E♭) and the three next above (F♯, C♯, G♯), so that the raised sixth and seventh
 * of the minor key are sharpened (common practice; the line of fifths as in D. Temperley, The Cognition of Basic
 * Musical Structures, 2001, from memory).
 *
 * @param pitch MIDI note
 * @param fifths sharps of the key signature, flats negative
 * @param named the place of its name on the line of fifths, where the harmony tells it
 */
export function spell(pitch: number, fifths: number, named?: number): Spelling {
  const lowest = fifths + LOWEST;
  const position = isNameOf(pitch, fifths, named) ? named : lowest + modulo(7 * pitch - lowest, 12);
  const step = steps[modulo(position + 1, 7)] ?? 'c';
  const alter = Math.floor((position + 1) / 7);
  return { step, alter, octave: (pitch - alter - semitones[step]) / 12 - 1 };
}

/** How far a name may lie from the signature's own tones: no double flats in sharps, nor the reverse. */
const FARTHEST = 5;

function isNameOf(pitch: number, fifths: number, named: number | undefined): named is number {
  if (named === undefined || modulo(7 * named - pitch, 12) !== 0) return false;
  return named >= fifths - 1 - FARTHEST && named <= fifths + 5 + FARTHEST;
}

/** What a key signature does to a step. */
export function signatureAlter(step: Spelling['step'], fifths: number): number {
  return Math.floor((fifths - steps.indexOf(step) + 6) / 7);
}

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}
