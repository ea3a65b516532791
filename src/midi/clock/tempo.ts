import { finder } from '../sorted.js';
import type { Clock } from './clock.js';

/** Tempos in columns, in order, each on a tick of its own, the first at tick 0. */
export interface Tempos {
  readonly ticks: Float64Array;
  /** To a quarter note, from its tick on. */
  readonly microseconds: Float64Array;
}

/** Ticks and milliseconds of tempos. */
export function tempoMap({ ticks, microseconds }: Tempos, ppq: number): Pick<Clock, 'ms' | 'tickAt'> {
  const times = beginnings({ ticks, microseconds }, ppq);
  const thousandQuarters = 1000 * ppq;
  const atTick = finder(ticks);
  const atTime = finder(times);
  return {
    ms(tick) {
      // Most music has one tempo.
      const index = ticks.length === 1 ? 0 : Math.max(0, atTick(tick));
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

/**
 * When each tempo begins, in milliseconds. Beats are summed up and timed as `@tonejs/midi` does it, operation by
 * operation: half a tick is often exactly between two, and another rounding would put a switch on the other.
 */
export function beginnings({ ticks, microseconds }: Tempos, ppq: number): Float64Array {
  const times = new Float64Array(ticks.length);
  let seconds = 0;
  let beats = 0;
  for (let index = 1; index < times.length; index++) {
    const bpm = 60_000_000 / (microseconds[index - 1] ?? 0);
    const more = (ticks[index] ?? 0) / ppq - beats;
    seconds = (60 / bpm) * more + seconds;
    beats += more;
    times[index] = seconds * 1000;
  }
  return times;
}
