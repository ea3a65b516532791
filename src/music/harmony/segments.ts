import type { Span } from './spans.js';
import { templateScore } from './templates.js';

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
/**
 * What a root in the bass is worth, for each quarter note in which as much sounds above it, so that a bass which moves on
 * parts chords of common tones.
 */
const rootInBass = 0.5;
/** Silence of more quarter notes than this parts harmonies, though the chord be the same. */
const longSilence = 2;
/** No more spans than this are searched as one, so that time is in proportion to the music. */
const longest = 16;
/** More voices than four do not make a change weigh more. */
const voices = 4;

/**
 * The segmentation of highest score: B. Pardo, W. P. Birmingham, "Algorithms for Chordal Analysis", Computer Music
 * Journal 26(2), 2002, as the best path through all partition points. Beyond the paper: more templates, weight by length,
 * and a cost of each change. Segments neither begin nor end in silence.
 */
export function segmentsOf(spans: readonly Span[], metre: Metre): readonly Segment[] {
  const sums = weightSums(spans, metre.unit);
  const costs = Float64Array.from(
    spans,
    (span) => changeCost(span) + (metre.isBeat(span.tick) ? 0 : offBeat),
  );
  return stretchesOf(spans, metre.unit).flatMap((stretch) =>
    bestPath(stretch, sums, costs).flatMap((segment) => trimmed(spans, segment)),
  );
}

function changeCost({ pitches }: Span): number {
  const sounding = pitches.reduce((sum, { weight }) => sum + weight, 0);
  const share = Math.max(0, Math.min(1, (sounding - 1) / (voices - 1)));
  return change.alone + (change.full - change.alone) * share;
}

function bestPath({ from, to }: Segment, sums: Float64Array, costs: Float64Array): readonly Segment[] {
  const score = new Float64Array(to - from + 1).fill(Number.NEGATIVE_INFINITY);
  const before = new Int32Array(to - from + 1);
  score[0] = 0;
  for (let end = from + 1; end <= to; end++) {
    let best = Number.NEGATIVE_INFINITY;
    for (let start = end - 1; start >= Math.max(from, end - longest); start--) {
      const reached = (score[start - from] ?? 0) - (costs[start] ?? 0);
      // No template explains more than all that sounds, with its root in the bass.
      if (reached + weightBetween(sums, start, end) <= best) continue;
      const total = reached + scoreBetween(sums, start, end);
      if (total <= best) continue;
      best = total;
      before[end - from] = start;
    }
    score[end - from] = best;
  }
  const path: Segment[] = [];
  for (let end = to; end > from; ) {
    const start = before[end - from] ?? from;
    path.push({ from: start, to: end });
    end = start;
  }
  return path.reverse();
}

function scoreBetween(sums: Float64Array, start: number, end: number): number {
  const from = start * each;
  const to = end * each;
  return templateScore(
    (pitchClass) => (sums[to + pitchClass] ?? 0) - (sums[from + pitchClass] ?? 0),
    (pitchClass) => (sums[to + bassAt + pitchClass] ?? 0) - (sums[from + bassAt + pitchClass] ?? 0),
  );
}

function weightBetween(sums: Float64Array, start: number, end: number): number {
  return (sums[end * each + 12] ?? 0) - (sums[start * each + 12] ?? 0);
}

/** Numbers a span in the sums: twelve pitch classes, the most that there is to explain, and the bass in twelve classes. */
const each = 25;
const bassAt = 13;

/** Sums of the weight of each pitch class, of all, and of the bass, before each span and behind the last. */
function weightSums(spans: readonly Span[], unit: number): Float64Array {
  const sums = new Float64Array((spans.length + 1) * each);
  spans.forEach(({ tick, endTick, pitches }, index) => {
    const next = (index + 1) * each;
    const sounding = pitches.reduce((sum, { weight }) => sum + weight, 0);
    const scale = (Math.min(1, voices / sounding) * (endTick - tick)) / unit;
    sums.copyWithin(next, next - each, next);
    for (const { pitch, weight } of pitches)
      for (const at of [next + (pitch % 12), next + 12]) sums[at] = (sums[at] ?? 0) + weight * scale;
    const bass = pitches[0];
    if (bass) {
      const above = Math.min(1, sounding - bass.weight);
      const weight = (rootInBass * bass.weight * above * (endTick - tick)) / unit;
      for (const at of [next + bassAt + (bass.pitch % 12), next + 12]) sums[at] = (sums[at] ?? 0) + weight;
    }
  });
  return sums;
}

/** Stretches of music between long silences. */
function stretchesOf(spans: readonly Span[], unit: number): readonly Segment[] {
  const stretches: Segment[] = [];
  let from = 0;
  spans.forEach(({ tick, endTick, pitches }, index) => {
    if (pitches.length > 0 || endTick - tick <= longSilence * unit) return;
    if (index > from) stretches.push({ from, to: index });
    from = index + 1;
  });
  if (spans.length > from) stretches.push({ from, to: spans.length });
  return stretches;
}

/** Without silence at its ends; nothing where all is silent. */
function trimmed(spans: readonly Span[], { from, to }: Segment): readonly Segment[] {
  let [first, last] = [from, to];
  while (first < last && spans[first]?.pitches.length === 0) first++;
  while (last > first && spans[last - 1]?.pitches.length === 0) last--;
  return first < last ? [{ from: first, to: last }] : [];
}
