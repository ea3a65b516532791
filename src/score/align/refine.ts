import { pairMoments } from './by-pitch.js';
import type { Chord, Pair, TakenNote, WrittenNote } from './notes.js';
import { type Expectation, expectations } from './tempo.js';

/** How far from its expected time a note may lie and still be it. Unit: ms. */
const nearest = 120;
const farthest = 600;

/**
 * Pairs all notes anew, pitch by pitch, by the times at which pairs that are known make one expect them. What crosses
 * in time (a melody ahead of its chord, an ornament under a run) is so found, which order alone forbids.
 *
 * @param known pairs of a coarser alignment, from which the tempo is taken
 */
export function refine(
  written: readonly WrittenNote[],
  chords: readonly Chord[],
  taken: readonly TakenNote[],
  known: readonly Pair[],
): readonly Pair[] {
  const expected = expectations(written, chords, known, taken);
  const times = new Map<number, Expectation>();
  const room = new Map<number, number>();
  chords.forEach(({ notes }, index) => {
    const expectation = expected[index];
    for (const note of notes) {
      if (expectation) times.set(note, expectation);
      room.set(note, roomAt(expected, index));
    }
  });
  const tolerance = (index: number) => room.get(index) ?? nearest;
  const bySort = (a: { ms: number; index: number }, b: { ms: number; index: number }) =>
    a.ms - b.ms || a.index - b.index;
  return [...new Set(written.map(({ pitch }) => pitch))].flatMap((pitch) => {
    const due = written.flatMap((note, index) => {
      const time = times.get(index);
      return note.pitch === pitch && time && !time.isSkipped ? [{ index, ms: time.ms }] : [];
    });
    const played = taken.flatMap((note, index) => (note.pitch === pitch ? [{ index, ms: note.ms }] : []));
    return pairMoments(due.sort(bySort), played.sort(bySort), tolerance);
  });
}

/** As far as the chords around lie apart, within bounds. */
function roomAt(expected: readonly Expectation[], index: number): number {
  const before = expected[index - 2]?.ms ?? expected[index]?.ms ?? 0;
  const after = expected[index + 2]?.ms ?? expected[index]?.ms ?? 0;
  return Math.max(nearest, Math.min(farthest, (after - before) / 2));
}
