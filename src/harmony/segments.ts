import type { Span } from './spans.js';

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

interface Template {
  readonly tones: readonly number[];
  readonly cost: number;
}

/**
 * The chords that harmonic rhythm is heard by, with what choosing one costs: the six of Pardo and Birmingham, then
 * others that are settled enough to stand for themselves.
 */
const templates: readonly Template[] = [
  { tones: [0, 4, 7], cost: 0 },
  { tones: [0, 3, 7], cost: 0 },
  { tones: [0, 4, 7, 10], cost: 0.9 },
  { tones: [0, 3, 6], cost: 0.9 },
  { tones: [0, 3, 6, 10], cost: 1.2 },
  { tones: [0, 3, 6, 9], cost: 1.2 },
  { tones: [0, 3, 7, 10], cost: 1.5 },
  { tones: [0, 4, 7, 11], cost: 1.8 },
  { tones: [0, 4, 8], cost: 1.8 },
  { tones: [0, 7], cost: 1.2 },
  { tones: [0, 5, 7], cost: 3 },
  { tones: [0, 2, 7], cost: 3 },
  { tones: [0, 2, 4, 7], cost: 3 },
  { tones: [0, 2, 3, 7], cost: 3 },
  { tones: [0, 5, 7, 10], cost: 3 },
  { tones: [0, 2, 4, 7, 10], cost: 3 },
  { tones: [0, 3, 5, 10], cost: 3.3 },
];

const missingTone = 1;
/** Sums lose this much to rounding. */
const leastWeight = 1e-6;
const change = 0.5;
/** What a change between beats costs besides: harmony moves with the beat. */
const offBeat = 1;
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
  const costs = Float64Array.from(spans, ({ tick }) => (metre.isBeat(tick) ? change : change + offBeat));
  return stretchesOf(spans, metre.unit).flatMap((stretch) =>
    bestPath(stretch, sums, costs).flatMap((segment) => trimmed(spans, segment)),
  );
}

function bestPath({ from, to }: Segment, sums: Float64Array, costs: Float64Array): readonly Segment[] {
  const score = new Float64Array(to - from + 1).fill(Number.NEGATIVE_INFINITY);
  const before = new Int32Array(to - from + 1);
  score[0] = 0;
  for (let end = from + 1; end <= to; end++) {
    for (let start = Math.max(from, end - longest); start < end; start++) {
      const reached = (score[start - from] ?? 0) + templateScore(sums, start, end) - (costs[start] ?? 0);
      if (reached > (score[end - from] ?? 0)) {
        score[end - from] = reached;
        before[end - from] = start;
      }
    }
  }
  const path: Segment[] = [];
  for (let end = to; end > from; ) {
    const start = before[end - from] ?? from;
    path.push({ from: start, to: end });
    end = start;
  }
  return path.reverse();
}

/** Sums of the weight of each pitch class before each span, 12 numbers a span. */
function weightSums(spans: readonly Span[], unit: number): Float64Array {
  const sums = new Float64Array((spans.length + 1) * 12);
  spans.forEach(({ tick, endTick, pitches }, index) => {
    const at = index * 12;
    const sounding = pitches.reduce((sum, { weight }) => sum + weight, 0);
    const scale = (Math.min(1, voices / sounding) * (endTick - tick)) / unit;
    for (let pc = 0; pc < 12; pc++) sums[at + 12 + pc] = sums[at + pc] ?? 0;
    for (const { pitch, weight } of pitches) {
      const to = at + 12 + (pitch % 12);
      sums[to] = (sums[to] ?? 0) + weight * scale;
    }
  });
  return sums;
}

/** Two octaves, so that a tone above any root is found without a remainder. */
const weights = new Float64Array(24);

function templateScore(sums: Float64Array, start: number, end: number): number {
  let total = 0;
  for (let pc = 0; pc < 12; pc++) {
    const weight = (sums[end * 12 + pc] ?? 0) - (sums[start * 12 + pc] ?? 0);
    const sounding = weight > leastWeight ? weight : 0;
    weights[pc] = sounding;
    weights[pc + 12] = sounding;
    total += sounding;
  }
  let best = 0;
  for (let root = 0; root < 12; root++)
    if (weights[root] !== 0)
      for (const template of templates) best = Math.max(best, explained(root, template));
  return best - total;
}

/** Twice the weight of what a template explains, less what it lacks and costs. */
function explained(root: number, { tones, cost }: Template): number {
  let sum = -cost;
  for (const tone of tones) {
    const weight = weights[root + tone] ?? 0;
    sum += weight === 0 ? -missingTone : 2 * weight;
  }
  return sum;
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
