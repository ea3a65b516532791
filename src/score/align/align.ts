import { alignChords } from './chordwise.js';
import { type Alignment, alignmentOf, chordsOf, type TakenNote, type WrittenNote } from './notes.js';
import { refine } from './refine.js';

/**
 * Finds each note of a score in a take, however freely it was played: first by pitches in order, then pitch by pitch by
 * the tempo that comes out of it. (Measured: doing the latter twice changes nothing.)
 *
 * @param taken in order of onset
 */
export function align(written: readonly WrittenNote[], taken: readonly TakenNote[]): Alignment {
  const chords = chordsOf(written);
  const known = alignChords(written, chords, taken);
  return alignmentOf(refine(written, chords, taken, known), written.length, taken.length);
}
