import { noteEnd, noteTick } from '../../midi/index.js';
import { markRuns } from './runs.js';
import { tally } from './tally.js';
import type { Measure, Performance } from './types.js';

/**
 * Eight successive notes each of which is exactly as long as one of the four before it: so that a rhythm of two or
 * three note values, each always held alike, counts too. Played lengths vary by 10 ms and more, so that two agree to
 * the millisecond in about one case of thirty-five, and eight such notes in a row are no accident. Own figures, no source.
 */
export const sameLengths = { run: 8, lookBack: 4 } as const;

/** Notes in runs of identical lengths. */
export function measureLengths({ clock, notes }: Performance): Measure {
  const lengths = notes.endTick.map((_, note) => noteEnd(notes, note) - noteTick(notes, note));
  const mechanical = markRuns(lengths, sameLengths.lookBack, sameLengths.run);
  return tally('same-lengths', { ticks: notes.tick, mechanical }, clock, { share: 0, least: 1 });
}
