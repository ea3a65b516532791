import type { Clock } from '../../src/midi/clock/clock.js';

/**
 * A clock written down independently for these tests: one metre throughout, tempo changes at given ticks.
 *
 * @param tempi [tick, beats per minute], the first at tick 0
 */
export function plainClock(
  ppq: number,
  tempi: readonly (readonly [number, number])[] = [[0, 120]],
  beatsInBar = 4,
): Clock {
  const msPerTick = (bpm: number) => 60_000 / bpm / ppq;
  const segments: { tick: number; ms: number; perTick: number }[] = [];
  for (const [tick, bpm] of tempi) {
    const last = segments.at(-1);
    const ms = last ? last.ms + (tick - last.tick) * last.perTick : 0;
    segments.push({ tick, ms, perTick: msPerTick(bpm) });
  }
  const at = (fits: (segment: { tick: number; ms: number }) => boolean) =>
    segments.findLast(fits) ?? { tick: 0, ms: 0, perTick: msPerTick(120) };
  return {
    ticksPerWhole: 4 * ppq,
    ms: (tick) => {
      const segment = at((one) => one.tick <= tick);
      return segment.ms + (tick - segment.tick) * segment.perTick;
    },
    tickAt: (ms) => {
      const segment = at((one) => one.ms <= ms);
      return Math.max(0, Math.round(segment.tick + (ms - segment.ms) / segment.perTick));
    },
    position: (tick) => {
      const beat = Math.floor(tick / ppq);
      return { bar: Math.floor(beat / beatsInBar) + 1, beat: (beat % beatsInBar) + 1 };
    },
    barStart: (bar, beat = 1) => ((bar - 1) * beatsInBar + beat - 1) * ppq,
  };
}

/** A clock of a file that counts SMPTE frames, a thousand ticks to the second. */
export const frameClock: Clock = {
  ticksPerWhole: null,
  ms: (tick) => tick,
  tickAt: (ms) => Math.max(0, Math.round(ms)),
  position: () => null,
  barStart: () => null,
};
