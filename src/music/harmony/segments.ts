import { isSilent, type Spans, spanEnd, spanTick } from './spans.js';
import { templateScore } from './templates.js';
import { soundingWeight, voices, WeightSums } from './weight-sums.js';

/** Spans `from` up to, and without, `to`, that are one harmony. */
export interface Segment {
  readonly from: number;
  readonly to: number;
}

/** What the search needs to know of the music's metre. */
export interface Metre {
  /** Ticks of a quarter note: the unit of weight is one voice that sounds so long. */
  readonly unit: number;
  /** Whether a tick is on a beat. */
  readonly isBeat: (tick: number) => boolean;
}

/** What a change of harmony costs, in quarter notes of one voice: of one voice alone, and of as many as count. */
const change = { alone: 0.5, full: 0.1 };
/** What a change between beats costs besides: harmony moves with the beat. */
const offBeat = 0.7;
/** Silence of more quarter notes than this parts harmonies, though the chord be the same. */
const longSilence = 2;
/** No more spans than this are searched as one, so that time is in proportion to the music. */
const longest = 16;
/** More than sums of weights lose to rounding. */
const rounding = 1e-6;

/**
 * The segmentation of highest score: B. Pardo, W. P. Birmingham, "Algorithms for Chordal Analysis", Computer Music
 * Journal 26(2), 2002, as the best path through all partition points. Beyond the paper: more templates, weight by length,
 * and a cost of each change. Segments neither begin nor end in silence.
 */
export function* segmentsOf(spans: Spans, metre: Metre): Generator<Segment> {
  const sums = new WeightSums(spans, metre.unit, longest + 1);
  const costs = new Float64Array(spans.length);
  for (let span = 0; span < spans.length; span++)
    costs[span] = changeCost(spans, span) + (metre.isBeat(spanTick(spans, span)) ? 0 : offBeat);
  for (const stretch of stretchesOf(spans, metre.unit)) {
    const ends = bestPath(stretch, sums, costs);
    let { from } = stretch;
    for (const to of ends) {
      yield* trimmed(spans, { from, to });
      from = to;
    }
  }
}

function changeCost(spans: Spans, span: number): number {
  const share = Math.max(0, Math.min(1, (soundingWeight(spans, span) - 1) / (voices - 1)));
  return change.alone + (change.full - change.alone) * share;
}

/** Where the segments of the best path end, in order. */
function bestPath({ from, to }: Segment, sums: WeightSums, costs: Float64Array): readonly number[] {
  const score = new Float64Array(to - from + 1).fill(Number.NEGATIVE_INFINITY);
  const before = new Int32Array(to - from + 1);
  score[0] = 0;
  const reachedAt = (start: number) => (score[start - from] ?? 0) - (costs[start] ?? 0);
  const scoreOf = (start: number, end: number, least: number) =>
    templateScore(sums.sums, sums.rowAt(start), sums.rowAt(end), least);
  for (let end = from + 1; end <= to; end++) {
    const earliest = Math.max(from, end - longest);
    // To let the last segment go on is mostly the best, or near it: of the others only what may be better is looked at.
    const guess = Math.max(earliest, before[end - 1 - from] ?? from);
    const known = reachedAt(guess) + scoreOf(guess, end, Number.NEGATIVE_INFINITY);
    let best = Number.NEGATIVE_INFINITY;
    for (let start = end - 1; start >= earliest; start--) {
      const reached = reachedAt(start);
      // No template explains more than all that sounds, with its root in the bass.
      const most = reached + sums.mostBetween(start, end);
      if (most <= best || most < known - rounding) continue;
      const least = Math.max(best, known - rounding) - reached;
      const total = start === guess ? known : reached + scoreOf(start, end, least);
      if (total <= best) continue;
      best = total;
      before[end - from] = start;
    }
    score[end - from] = best;
  }
  const ends: number[] = [];
  for (let end = to; end > from; end = before[end - from] ?? from) ends.push(end);
  return ends.reverse();
}

/** Stretches of music between long silences. */
function stretchesOf(spans: Spans, unit: number): readonly Segment[] {
  const stretches: Segment[] = [];
  let from = 0;
  for (let span = 0; span < spans.length; span++) {
    const ticks = spanEnd(spans, span) - spanTick(spans, span);
    if (!isSilent(spans, span) || ticks <= longSilence * unit) continue;
    if (span > from) stretches.push({ from, to: span });
    from = span + 1;
  }
  if (spans.length > from) stretches.push({ from, to: spans.length });
  return stretches;
}

/** Without silence at its ends; nothing where all is silent. */
function trimmed(spans: Spans, { from, to }: Segment): readonly Segment[] {
  let [first, last] = [from, to];
  while (first < last && isSilent(spans, first)) first++;
  while (last > first && isSilent(spans, last - 1)) last--;
  return first < last ? [{ from: first, to: last }] : [];
}
