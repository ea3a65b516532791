import { type Duration, isAtLeast, type Span } from '../../midi/index.js';
import type { DurationRange } from '../types.js';

/** Whether a span is at least `from` and less than `below`. A fraction fits nothing where there are no beats. */
export function spanFits(range: DurationRange, ticksPerWhole: number | null): (span: Span) => boolean {
  const { from, below } = range;
  const beatless = ticksPerWhole === null && (from?.unit === 'whole' || below?.unit === 'whole');
  if (beatless) return () => false;
  return (span) =>
    (from === undefined || isAtLeast(span, from, ticksPerWhole)) &&
    (below === undefined || !isAtLeast(span, below, ticksPerWhole));
}

/** A duration as a map spells it. */
export function formatDuration(duration: Duration): string {
  return duration.unit === 'ms' ? `${duration.ms}ms` : `${duration.numerator}/${duration.denominator}`;
}

/** A span in words: `182.3 ms`, or that it is endless. */
export function formatSpan(span: Span): string {
  return Number.isFinite(span.ms) ? `${Math.round(span.ms * 10) / 10} ms` : 'endless';
}

/** `130ms to below 320ms`, `below 130ms`, `from 320ms`. */
export function formatSpanRange({ from, below }: DurationRange): string {
  if (from && below) return `${formatDuration(from)} to below ${formatDuration(below)}`;
  if (below) return `below ${formatDuration(below)}`;
  return from ? `from ${formatDuration(from)}` : 'any';
}
