import { barFinder } from '../../midi/index.js';
import { barRanges } from './bars.js';
import { onsetTicks } from './onset-ticks.js';
import type { Measure, Performance } from './types.js';

/**
 * Four successive bars with notes but without a single event of a dynamics controller: about a phrase in which the
 * loudness of held notes never moves. Own figure, no source.
 */
export const noDynamics = { bars: 4 } as const;

/**
 * Bars with notes in which no dynamics controller moves; where it moves nowhere, all bars with notes. A file without
 * bars counts as one.
 */
export function measureDynamics(performance: Performance): Measure {
  const { clock, onsets, dynamics } = performance;
  if (clock.ticksPerWhole === null) {
    const of = onsets.length > 0 ? 1 : 0;
    return { measure: 'no-dynamics', count: dynamics.length === 0 ? of : 0, of, bars: [] };
  }
  const barAt = barFinder(clock);
  const moving = new Set(dynamics.map((tick) => barAt(tick)?.bar));
  const sounding = new Set<number>();
  for (const tick of onsetTicks(performance)) {
    const bar = barAt(tick)?.bar;
    if (bar !== undefined) sounding.add(bar);
  }
  const bars = [...sounding].map((bar) => ({ bar, count: moving.has(bar) ? 0 : 1, of: 1 }));
  const still = bars.filter(({ count }) => count > 0).length;
  const least = dynamics.length === 0 ? 1 : noDynamics.bars;
  return { measure: 'no-dynamics', count: still, of: bars.length, bars: barRanges(bars, 1, least) };
}
