import { mod } from './fifths.js';
import type { Reading } from './fit.js';
import type { ReadStretch } from './read-stretch.js';
import type { Segment } from './segments.js';
import { firstPitch, type Spans } from './spans.js';

/** A pitch that sounds for less than this share of a span only reaches into it. */
const sounds = 0.5;
/** Roots to which a dominant seventh goes, in semitones above its own: a fourth up, or a step, as to the relative. */
const resolutions: readonly number[] = [5, 1, 2];

/** A segment, and how it is read. */
export interface ReadSegment extends Segment {
  readonly read: ReadStretch | null;
}

/**
 * Parts segments where a seventh comes in over a chord that goes on: G with a G7 behind it, on its way to C, is two
 * chords in the terms of harmony teaching (common practice, no source).
 */
export function* partedAtSevenths(
  spans: Spans,
  segments: Iterable<Segment>,
  readingOf: (segment: Segment) => ReadStretch | null,
): Generator<ReadSegment> {
  const readSegment = ({ from, to }: Segment): ReadSegment => ({ from, to, read: readingOf({ from, to }) });
  let open: ReadSegment | undefined;
  for (const segment of segments) {
    const next = readSegment(segment);
    if (open) yield* partedBefore(next.read?.reading, open);
    open = next;
  }
  if (open) yield open;

  function partedBefore(next: Reading | null | undefined, segment: ReadSegment): readonly ReadSegment[] {
    const reading = segment.read?.reading;
    const at = reading && next && resolves(reading, next) ? entryOf(spans, segment, reading.root) : null;
    if (at === null) return [segment];
    const behind = readSegment({ from: at, to: segment.to });
    const read = behind.read?.reading;
    const isDominant = read?.root === reading?.root && read?.kind.symbol === '7';
    return isDominant ? [readSegment({ from: segment.from, to: at }), behind] : [segment];
  }
}

function resolves({ root, kind }: Reading, next: Reading): boolean {
  return (kind.symbol === '' || kind.symbol === '7') && resolutions.includes(mod(next.root - root, 12));
}

/** The span in which the minor seventh above a root comes in, to stay; null where it does not, or is there at first. */
function entryOf(spans: Spans, { from, to }: Segment, root: number): number | null {
  const seventh = mod(root + 10, 12);
  const hears = (span: number) => {
    for (let at = firstPitch(spans, span); at < firstPitch(spans, span + 1); at++)
      if ((spans.pitch[at] ?? 0) % 12 === seventh && (spans.share[at] ?? 0) >= sounds) return true;
    return false;
  };
  let at = to;
  while (at > from && hears(at - 1)) at--;
  if (at === to || at === from) return null;
  for (let index = from; index < at; index++) if (hears(index)) return null;
  return at;
}
