import { finder } from '../sorted.js';
import type { Clock } from './clock.js';

/** A tempo from its tick on. */
export interface TempoChange {
  readonly ticks: number;
  readonly bpm: number;
  /** Seconds from the start of the file. */
  readonly time: number;
}

/** Ticks and milliseconds of tempo changes in order, each on a tick of its own, the first at tick 0. */
export function tempoMap(changes: readonly TempoChange[], ppq: number): Pick<Clock, 'ms' | 'tickAt'> {
  const ticks = Float64Array.from(changes, (change) => change.ticks);
  const times = Float64Array.from(changes, ({ time }) => time * 1000);
  const microseconds = Float64Array.from(changes, ({ bpm }) => Math.round(60_000_000 / bpm));
  const thousandQuarters = 1000 * ppq;
  const atTick = finder(ticks);
  const atTime = finder(times);
  return {
    ms(tick) {
      const index = Math.max(0, atTick(tick));
      return (
        (times[index] ?? 0) + ((tick - (ticks[index] ?? 0)) * (microseconds[index] ?? 0)) / thousandQuarters
      );
    },
    tickAt(ms) {
      const index = Math.max(0, atTime(ms));
      const since = ((ms - (times[index] ?? 0)) * thousandQuarters) / (microseconds[index] ?? 1);
      return Math.max(0, Math.round((ticks[index] ?? 0) + since));
    },
  };
}
