import { firstNote, noteTick } from '../../midi/index.js';
import { tally } from './tally.js';
import type { Measure, Performance } from './types.js';

/**
 * Bars in which half of the chords or more have all their notes on one tick, over two such chords or more. Rasch
 * (1979) measured standard deviations of about 30–50 ms between the players of a trio; even with 5 ms each, as of one
 * hand on a keyboard, two notes fall within the same millisecond in one case of eighteen. Own figures.
 */
export const unspreadChords = { share: 0.5, least: 2 } as const;

/** Chords without any spread. */
export function measureChords({ clock, notes, onsets }: Performance): Measure {
  const ticks: number[] = [];
  const mechanical: boolean[] = [];
  for (let onset = 0; onset < onsets.length; onset++) {
    const [first, last] = [firstNote(onsets, onset), firstNote(onsets, onset + 1) - 1];
    if (first === last) continue;
    ticks.push(noteTick(notes, first));
    // Notes are in order of tick.
    mechanical.push(noteTick(notes, first) === noteTick(notes, last));
  }
  return tally('unspread-chords', { ticks, mechanical }, clock, unspreadChords);
}
