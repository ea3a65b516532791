import type { Clock } from './clock/index.js';
import type { Span } from './line.js';

/** A length of time: real time, or a fraction of a whole note (measured in ticks). */
export type Duration =
  | { readonly unit: 'ms'; readonly ms: number }
  | { readonly unit: 'whole'; readonly numerator: number; readonly denominator: number };

/**
 * Whether a span is as long as a duration or longer: times are compared in milliseconds, fractions of a whole note
 * in ticks, by whole numbers. Without beats (`ticksPerWhole` null) no span reaches a fraction; what depends on one
 * there is reported beforehand (fraction-without-beats).
 */
export function isAtLeast(span: Span, duration: Duration, ticksPerWhole: number | null): boolean {
  if (duration.unit === 'ms') return span.ms >= duration.ms;
  return ticksPerWhole !== null && span.ticks * duration.denominator >= duration.numerator * ticksPerWhole;
}

/**
 * The tick that lies a duration before a tick: the nearest to that time, or to that fraction of a whole note; never
 * below 0. A fraction where there are no beats is taken as nothing.
 */
export function tickBefore(clock: Clock, tick: number, duration: Duration): number {
  if (duration.unit === 'ms') return Math.min(tick, clock.tickAt(clock.ms(tick) - duration.ms));
  return Math.max(0, tick - ticksOf(clock, duration));
}

/** The tick that lies a duration behind a tick: the nearest to that time, or to that fraction of a whole note. */
export function tickAfter(clock: Clock, tick: number, duration: Duration): number {
  if (duration.unit === 'ms') return Math.max(tick, clock.tickAt(clock.ms(tick) + duration.ms));
  return tick + ticksOf(clock, duration);
}

function ticksOf(
  { ticksPerWhole }: Clock,
  { numerator, denominator }: Extract<Duration, { readonly unit: 'whole' }>,
) {
  return ticksPerWhole === null ? 0 : Math.round((numerator * ticksPerWhole) / denominator);
}
