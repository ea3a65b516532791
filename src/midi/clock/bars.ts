import { finder, lastAtMost } from '../sorted.js';
import type { Clock } from './clock.js';
import type { TimeSignature } from './events.js';

/** A time signature from its tick on. */
export interface SignatureChange extends TimeSignature {
  readonly ticks: number;
}

/** Bars of one time signature. */
interface SignatureSpan extends SignatureChange {
  /** The number of its first bar. */
  readonly bar: number;
}

/**
 * Bars and beats of time signature changes in order, the first at tick 0. A change begins a new bar, also in the
 * middle of one; a time signature that is in force already changes nothing. All by whole numbers, so that no bar line drifts.
 */
export function barLines(
  changes: readonly SignatureChange[],
  ticksPerWhole: number,
): Required<Pick<Clock, 'position' | 'barStart' | 'meterBars'>> {
  const stretches: SignatureSpan[] = [];
  for (const change of changes) {
    const before = stretches.at(-1);
    if (before?.numerator === change.numerator && before.denominator === change.denominator) continue;
    const bars = before
      ? Math.ceil(beatsUpTo(before, change.ticks, ticksPerWhole, Math.ceil) / before.numerator)
      : 0;
    stretches.push({ ...change, bar: (before?.bar ?? 1) + bars });
  }
  const atTick = finder(stretches.map(({ ticks }) => ticks));
  const bars = stretches.map(({ bar }) => bar);
  return {
    meterBars: bars.slice(1),
    position(tick) {
      const stretch = stretches[Math.max(0, atTick(tick))];
      if (!stretch) return null;
      const beats = Math.max(0, beatsUpTo(stretch, tick, ticksPerWhole, Math.floor));
      return {
        bar: stretch.bar + Math.floor(beats / stretch.numerator),
        beat: (beats % stretch.numerator) + 1,
      };
    },
    barStart(bar, beat = 1) {
      const index = Math.max(0, lastAtMost(bars, bar));
      const stretch = stretches[index];
      if (!stretch) return null;
      const beats =
        (Math.max(bar, 1) - stretch.bar) * stretch.numerator +
        Math.min(Math.max(beat, 1) - 1, stretch.numerator);
      const tick = stretch.ticks + Math.ceil((beats * ticksPerWhole) / stretch.denominator);
      return Math.min(tick, stretches[index + 1]?.ticks ?? Number.POSITIVE_INFINITY);
    },
  };
}

/** Whole beats from the beginning of a stretch to a tick. */
function beatsUpTo(
  { ticks, denominator }: SignatureSpan,
  tick: number,
  ticksPerWhole: number,
  round: (beats: number) => number,
): number {
  return round(((tick - ticks) * denominator) / ticksPerWhole);
}
