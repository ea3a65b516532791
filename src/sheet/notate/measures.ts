import type { Clock } from '../../midi/index.js';

/**
 * Written time is counted in whole units, so that values add up exactly: 3 × 1024 to the whole note hold every
 * binary value down to the 1024th and triplets of everything down to the 512th.
 */
export const WHOLE = 3072;
export const QUARTER = WHOLE / 4;

/** A time signature; `unit` is its lower number. */
export interface Meter {
  readonly count: number;
  readonly unit: number;
}

/** A bar: in ticks as the clock has it, in units as it is written. */
export interface Measure {
  readonly bar: number;
  readonly tick: number;
  readonly endTick: number;
  readonly start: number;
  readonly end: number;
  readonly meter: Meter;
}

/** Whether two bars have the same time signature. */
export function isSameMeter(a: Meter, b: Meter): boolean {
  return a.count === b.count && a.unit === b.unit;
}

/** The finest lower number that is written. */
const FINEST_UNIT = 64;

/** The bars from the first up to and with the one numbered `last`. */
export function measuresUpTo(clock: Clock, last: number): readonly Measure[] {
  const measures: Measure[] = [];
  let start = 0;
  let meter: Meter = { count: 4, unit: 4 };
  for (let bar = 1; bar <= last; bar += 1) {
    const tick = clock.barStart(bar) ?? 0;
    const endTick = clock.barStart(bar + 1) ?? tick;
    meter = meterOf(clock, bar, endTick - tick) ?? meter;
    const end = start + (meter.count * WHOLE) / meter.unit;
    measures.push({ bar, tick, endTick, start, end, meter });
    start = end;
  }
  return measures;
}

/**
 * The time signature that a bar is written in: beats as the clock counts them where they fill the bar, otherwise
 * (a change of meter cut the bar short) the coarsest fraction that is as long as the bar. undefined for a bar
 * shorter than a tick.
 */
function meterOf(clock: Clock, bar: number, ticks: number): Meter | undefined {
  const whole = clock.ticksPerWhole ?? 0;
  if (ticks <= 0 || whole <= 0) return undefined;
  const beatTicks = (clock.barStart(bar, 2) ?? 0) - (clock.barStart(bar) ?? 0);
  const counted = 2 ** Math.round(Math.log2(whole / Math.max(1, beatTicks)));
  const units = [counted, 4, 8, 16, 32, FINEST_UNIT].filter((unit) => unit >= 1 && unit <= FINEST_UNIT);
  for (const unit of units) {
    const count = Math.round((ticks * unit) / whole);
    if (count >= 1 && Math.abs((count * whole) / unit - ticks) < 1) return { count, unit };
  }
  return { count: Math.max(1, Math.round((ticks * FINEST_UNIT) / whole)), unit: FINEST_UNIT };
}

/** Where a tick lies between written units; not rounded. */
export function unitAt(clock: Clock, measures: readonly Measure[], tick: number): number {
  const bar = clock.position(tick)?.bar ?? 1;
  const measure = measures[Math.min(bar, measures.length) - 1];
  if (!measure) return 0;
  const { start, end } = measure;
  const ticks = Math.max(1, measure.endTick - measure.tick);
  return Math.min(end, start + ((tick - measure.tick) * (end - start)) / ticks);
}

/** The tick of a place in a bar; before the next bar line, as the place is. */
export function tickOf(measure: Measure, place: number): number {
  const ticks = measure.endTick - measure.tick;
  const tick = measure.tick + Math.round(((place - measure.start) * ticks) / (measure.end - measure.start));
  return Math.min(tick, Math.max(measure.tick, measure.endTick - 1));
}
