import { type Division, pulseOf, ternary } from './division.js';
import type { Measure } from './measures.js';
import { split, type WrittenSpan } from './split.js';
import { tupletsOf } from './tuplets.js';
import { writtenValue } from './values.js';
import type { VoiceEvent } from './voices.js';
import type { Layer, Piece, Tuplet } from './written.js';

/** A stretch of a bar with an event, or with silence. */
interface Segment extends WrittenSpan {
  readonly event: VoiceEvent | undefined;
}

/**
 * Writes one voice in one bar.
 *
 * @param events those that sound in the bar, in order
 * @param written how many pieces of an event have been written already, for those that go on; brought up to date
 * @param isBlank silence is left blank, since another layer shows what there is
 */
export function layerOf(
  events: readonly VoiceEvent[],
  measure: Measure,
  division: Division,
  written: Map<VoiceEvent, number>,
  isBlank: boolean,
): Layer {
  const segments = segmentsOf(events, measure);
  const marks = segments.map(({ start }) => start);
  const tuplets = tupletsOf(marks, measure, pulseOf(measure.meter));
  const pieces: Piece[] = [];
  for (const segment of segments) {
    const { event } = segment;
    for (const { stretch, tuplet } of atTuplets(segment, tuplets))
      for (const { start, end, value } of valuesOf(stretch, tuplet, measure, division, !event)) {
        const nth = event ? count(event, end, written) : 0;
        pieces.push({ start, end, value, event, isSpace: !event && isBlank, nth, tuplet });
      }
  }
  return pieces;
}

/** How many pieces of an event come before the one that ends at `end`. */
function count(event: VoiceEvent, end: number, written: Map<VoiceEvent, number>): number {
  const before = written.get(event) ?? 0;
  if (end < event.end) written.set(event, before + 1);
  else if (before > 0) written.delete(event);
  return before;
}

function segmentsOf(events: readonly VoiceEvent[], measure: Measure): readonly Segment[] {
  const segments: Segment[] = [];
  let at = measure.start;
  for (const event of events) {
    const start = Math.max(event.start, measure.start);
    const end = Math.min(event.end, measure.end);
    if (start > at) segments.push({ start: at, end: start, event: undefined });
    segments.push({ start, end, event });
    at = end;
  }
  if (at < measure.end) segments.push({ start: at, end: measure.end, event: undefined });
  return segments;
}

/** Cuts a stretch where tuplets begin and end. */
function atTuplets(
  { start, end }: WrittenSpan,
  tuplets: readonly Tuplet[],
): readonly { readonly stretch: WrittenSpan; readonly tuplet: Tuplet | undefined }[] {
  const found: { stretch: WrittenSpan; tuplet: Tuplet | undefined }[] = [];
  let at = start;
  for (const tuplet of tuplets) {
    if (tuplet.end <= at || tuplet.start >= end) continue;
    if (tuplet.start > at) found.push({ stretch: { start: at, end: tuplet.start }, tuplet: undefined });
    const from = Math.max(at, tuplet.start);
    at = Math.min(end, tuplet.end);
    found.push({ stretch: { start: from, end: at }, tuplet });
  }
  if (at < end) found.push({ stretch: { start: at, end }, tuplet: undefined });
  return found;
}

/** Within a tuplet, time is counted as it is written: three halves of what it lasts. */
function valuesOf(
  stretch: WrittenSpan,
  tuplet: Tuplet | undefined,
  measure: Measure,
  division: Division,
  isRest: boolean,
): readonly Pick<Piece, 'start' | 'end' | 'value'>[] {
  const from = tuplet ? tuplet.start : measure.start;
  const scale = tuplet ? tuplet.num / tuplet.numbase : 1;
  const within = tuplet ? ternary((tuplet.end - tuplet.start) * scale) : division;
  const scaled = { start: (stretch.start - from) * scale, end: (stretch.end - from) * scale };
  return split(scaled, within, isRest).map(({ start, end }) => ({
    start: from + start / scale,
    end: from + end / scale,
    value: writtenValue(end - start) ?? { dur: '1024', dots: 0 },
  }));
}
