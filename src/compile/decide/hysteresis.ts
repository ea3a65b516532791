import type { Rule } from '../../map/index.js';
import type { MeasuredNote, Span } from '../../midi/index.js';
import type { Bounds } from './bounds.js';
import type { Ladder } from './ladder.js';

/** How many bounds on either side of a measure are tried; more would lie within one band only by design of harm. */
const maxBounds = 4;

/**
 * Whether the previous note's rule would have decided this note too, had its held time or its pace stayed on the
 * other side of bounds that it crossed by less than `share` of each bound.
 *
 * @param share of a bound, 0.15 for 15 %
 */
export function staysWithPrevious(
  note: MeasuredNote,
  previous: Rule,
  ladder: Ladder,
  bounds: Bounds,
  share: number,
): boolean {
  if (!isNear(note.held, bounds.held, share) && !isNear(note.pace, bounds.pace, share)) return false;
  const heldTimes = nearbySpans(note.held, bounds.held, share);
  const paces = nearbySpans(note.pace, bounds.pace, share);
  return heldTimes.some((held) =>
    paces.some((pace) => ladder.first({ ...note, held, pace }, previous.use) === previous),
  );
}

/** Whether any bound is in reach at all. */
function isNear(span: Span, { ms, ticks }: SpanBounds, share: number): boolean {
  const inReach = (value: number, bound: number) => Math.abs(value - bound) < share * bound;
  return ms.some((bound) => inReach(span.ms, bound)) || ticks.some((bound) => inReach(span.ticks, bound));
}

type SpanBounds = Bounds['held'];

/** The span itself, then the spans that it might as well have been. */
function nearbySpans(span: Span, bounds: SpanBounds, share: number): readonly Span[] {
  const times = nearbyValues(span.ms, bounds.ms, share);
  const ticks = nearbyValues(span.ticks, bounds.ticks, share);
  return times.flatMap((ms) => ticks.map((tick) => ({ ms, ticks: tick })));
}

/** The value itself, then one just across each bound in reach; a bound out of reach ends the way past it. */
function nearbyValues(value: number, bounds: readonly number[], share: number): readonly number[] {
  const values = [value];
  const first = bounds.findIndex((bound) => bound > value);
  const above = first < 0 ? bounds.length : first;
  for (let index = above; index < Math.min(above + maxBounds, bounds.length); index++) {
    const bound = bounds[index] ?? 0;
    if (bound - value >= share * bound) break;
    values.push(bound);
  }
  for (let index = above - 1; index >= Math.max(above - maxBounds, 0); index--) {
    const bound = bounds[index] ?? 0;
    if (value - bound >= share * bound) break;
    values.push(bound * (1 - 1e-9));
  }
  return values;
}
