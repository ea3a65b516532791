import { barLines } from '../../src/midi/clock/bars.js';
import type { Clock } from '../../src/midi/index.js';

/** A steady clock in 4/4: 480 ticks to the quarter, 500 ms each. */
export const steady: Clock = {
  ticksPerWhole: 1920,
  ms: (tick) => (tick * 500) / 480,
  tickAt: (ms) => Math.max(0, Math.round((ms * 480) / 500)),
  ...barLines([{ ticks: 0, numerator: 4, denominator: 4 }], 1920),
};

/** Ticks of a bar and a beat, both from 1; beats may have fractions. */
export const at = (bar: number, beat: number): number => (bar - 1) * 1920 + Math.round((beat - 1) * 480);
