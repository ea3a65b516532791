import type { Clock } from './clock/index.js';
import type { Span } from './line.js';

/** No time at all. */
export const nothing: Span = { ms: 0, ticks: 0 };

/** Silence without end: before the first note, after the last. */
export const endless: Span = { ms: Number.POSITIVE_INFINITY, ticks: Number.POSITIVE_INFINITY };

/**
 * The length between two ticks. Milliseconds are rounded to the nanosecond, so that a length that is exactly a
 * bound in theory is exactly that bound here, wherever in the file it stands.
 */
export function spanBetween(clock: Clock, from: number, to: number): Span {
  return { ms: msBetween(clock, from, to), ticks: to - from };
}

/** The real time between two ticks in milliseconds, rounded to the nanosecond. */
export function msBetween(clock: Clock, from: number, to: number): number {
  return roundedMs(clock.ms(from), clock.ms(to));
}

/** The same between two times that were looked up before. */
export function roundedMs(from: number, to: number): number {
  return Math.round((to - from) * 1e6) / 1e6;
}
