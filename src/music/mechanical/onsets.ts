import { barFinder } from '../../midi/index.js';
import { isExact } from '../../timing/index.js';
import { onsetTicks } from './onset-ticks.js';
import { tally } from './tally.js';
import type { Measure, Performance } from './types.js';

/**
 * Bars in which nine onsets of ten stand exactly on a place, over eight such onsets or more. An even player's
 * onsets lie about 9 ms (±15 ms) around their places, so that at 480 ticks and 120 bpm one of eight lies within a
 * tick of one: eight in a row come less than once in ten million. Own figures, no source.
 */
export const exactOnsets = { share: 0.9, least: 8 } as const;

/** Onsets exactly on the grid. A file that counts SMPTE frames has no grid. */
export function measureOnsets(performance: Performance): Measure {
  const { clock } = performance;
  const whole = clock.ticksPerWhole;
  const barAt = barFinder(clock);
  const ticks = whole === null ? [] : onsetTicks(performance);
  const mechanical = ticks.map((tick) => whole !== null && isExact(tick - (barAt(tick)?.from ?? 0), whole));
  return tally('exact-onsets', { ticks, mechanical }, clock, exactOnsets);
}
