import { tally } from './tally.js';
import type { Measure, Performance } from './types.js';

/**
 * Bars in which half of the chords or more have all their notes on one tick, over two such chords or more. Rasch
 * (1979) measured standard deviations of about 30–50 ms between the players of a trio; even with 5 ms each, as of one
 * hand on a keyboard, two notes fall within the same millisecond in one case of eighteen. Own figures.
 */
export const unspreadChords = { share: 0.5, least: 2 } as const;

/** Chords without any spread. */
export function measureChords({ clock, onsets }: Performance): Measure {
  const verdicts = onsets
    .filter(({ notes }) => notes.length > 1)
    .map(({ tick, notes }) => ({ tick, mechanical: notes.every((note) => note.tick === notes[0]?.tick) }));
  return tally('unspread-chords', verdicts, clock, unspreadChords);
}
