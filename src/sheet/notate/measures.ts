import { type Clock, lastWithin } from '../../midi/index.js';

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

/** A bar, or many in which nothing begins or ends: in ticks as the clock has it, in units as it is written. */
export interface Measure extends BarSpan {
  readonly tick: number;
  readonly endTick: number;
  readonly start: number;
  readonly end: number;
  readonly meter: Meter;
}

/** Bars that follow each other. */
export interface BarSpan {
  /** The number of the first, from 1. */
  readonly bar: number;
  /** How many they are. */
  readonly bars: number;
}

/** Whether two bars have the same time signature. */
export function isSameMeter(a: Meter, b: Meter): boolean {
  return a.count === b.count && a.unit === b.unit;
}

/** The finest lower number that is written. */
const FINEST_UNIT = 64;

/** Measures that follow each other from the first bar on. Bars that stand in one have one time signature. */
export function measuresOf(clock: Clock, spans: readonly BarSpan[]): readonly Measure[] {
  const measures: Measure[] = [];
  let start = 0;
  let meter: Meter = { count: 4, unit: 4 };
  for (const { bar, bars } of spans) {
    const tick = clock.barStart(bar) ?? 0;
    const endTick = clock.barStart(bar + bars) ?? tick;
    meter = meterOf(clock, bar, (clock.barStart(bar + 1) ?? tick) - tick) ?? meter;
    const end = start + (bars * meter.count * WHOLE) / meter.unit;
    measures.push({ bar, bars, tick, endTick, start, end, meter });
    start = end;
  }
  return measures;
}

/** A bar each. */
export function barByBar({ bar, bars }: BarSpan): readonly BarSpan[] {
  return Array.from({ length: bars }, (_, index) => ({ bar: bar + index, bars: 1 }));
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

/** The measure in which a tick lies; the first before all of them, the last behind. */
export function measureOfTick(measures: readonly Measure[], tick: number): Measure | undefined {
  const at = lastWithin(measures.length, (index) => measures[index]?.tick ?? 0, tick);
  return measures[Math.max(0, at)];
}

/** Where a tick lies between written units; not rounded. */
export function unitAt(measures: readonly Measure[], tick: number): number {
  const measure = measureOfTick(measures, tick);
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
