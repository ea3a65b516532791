import { mod } from './fifths.js';
import type { Reading } from './fit.js';
import type { Segment } from './segments.js';
import type { Span } from './spans.js';

/** A pitch that sounds for less than this share of a span only reaches into it. */
const sounds = 0.5;
/** Roots to which a dominant seventh goes, in semitones above its own: a fourth up, or a step, as to the relative. */
const resolutions: readonly number[] = [5, 1, 2];

/**
 * Parts segments where a seventh comes in over a chord that goes on: G with a G7 behind it, on its way to C, is two
 * chords in the terms of harmony teaching (common practice, no source).
 */
export function partedAtSevenths(
  spans: readonly Span[],
  segments: readonly Segment[],
  readingOf: (segment: Segment) => Reading | null,
): readonly Segment[] {
  const readings = segments.map(readingOf);
  return segments.flatMap((segment, index) => {
    const [reading, next] = [readings[index], readings[index + 1]];
    const at = reading && next && resolves(reading, next) ? entryOf(spans, segment, reading.root) : null;
    if (at === null) return [segment];
    const behind = { from: at, to: segment.to };
    const read = readingOf(behind);
    const isDominant = read?.root === reading?.root && read?.kind.symbol === '7';
    return isDominant ? [{ from: segment.from, to: at }, behind] : [segment];
  });
}

function resolves({ root, kind }: Reading, next: Reading): boolean {
  return (kind.symbol === '' || kind.symbol === '7') && resolutions.includes(mod(next.root - root, 12));
}

/** The span in which the minor seventh above a root comes in, to stay; null where it does not, or is there at first. */
function entryOf(spans: readonly Span[], { from, to }: Segment, root: number): number | null {
  const seventh = mod(root + 10, 12);
  const hears = (index: number) =>
    spans[index]?.pitches.some(({ pitch, share }) => pitch % 12 === seventh && share >= sounds) === true;
  let at = to;
  while (at > from && hears(at - 1)) at--;
  if (at === to || at === from) return null;
  for (let index = from; index < at; index++) if (hears(index)) return null;
  return at;
}
