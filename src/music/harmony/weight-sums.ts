import { firstPitch, type Spans, spanEnd, spanTick } from './spans.js';

/**
 * What a root in the bass is worth, for each quarter note in which as much sounds above it, so that a bass which moves on
 * parts chords of common tones.
 */
const rootInBass = 0.5;
/** More voices than four do not make a change weigh more. */
export const voices = 4;

/** Numbers a row: twelve pitch classes, the most that there is to explain, and the bass in twelve classes. */
const each = 25;
const mostAt = 12;
export const bassAt = 13;

/**
 * Running sums over spans: of the weight of each pitch class, of all, and of the bass. Row `i` has what sounds before
 * span `i`; the last `kept` rows that were asked for are there. Music of 200,000 notes would have 60 MB of them.
 */
export class WeightSums {
  /** The rows, one after another. */
  readonly sums: Float64Array;
  readonly #kept: number;
  /** The last row that is there. */
  #last = 0;

  /** @param unit ticks of a quarter note */
  constructor(
    readonly spans: Spans,
    readonly unit: number,
    kept: number,
  ) {
    this.#kept = kept;
    this.sums = new Float64Array(kept * each);
  }

  /** Where a row begins among the sums. */
  rowAt(index: number): number {
    while (this.#last < index) this.#addSpan(this.#last++);
    return (index % this.#kept) * each;
  }

  /** The most that there is to explain from one span to before another. */
  mostBetween(start: number, end: number): number {
    return (this.sums[this.rowAt(end) + mostAt] ?? 0) - (this.sums[this.rowAt(start) + mostAt] ?? 0);
  }

  #addSpan(span: number): void {
    const { spans, sums, unit } = this;
    const before = (span % this.#kept) * each;
    const row = ((span + 1) % this.#kept) * each;
    sums.copyWithin(row, before, before + each);
    const first = firstPitch(spans, span);
    const end = firstPitch(spans, span + 1);
    if (first === end) return;
    const sounding = soundingWeight(spans, span);
    const length = spanEnd(spans, span) - spanTick(spans, span);
    const scale = (Math.min(1, voices / sounding) * length) / unit;
    const add = (at: number, weight: number) => {
      sums[row + at] = (sums[row + at] ?? 0) + weight;
    };
    for (let at = first; at < end; at++) {
      const weight = (spans.weight[at] ?? 0) * scale;
      add((spans.pitch[at] ?? 0) % 12, weight);
      add(mostAt, weight);
    }
    const bass = spans.weight[first] ?? 0;
    const above = Math.min(1, sounding - bass);
    const weight = (rootInBass * bass * above * length) / unit;
    add(bassAt + ((spans.pitch[first] ?? 0) % 12), weight);
    add(mostAt, weight);
  }
}

/** The weight of all that sounds in a span. */
export function soundingWeight(spans: Spans, span: number): number {
  let sum = 0;
  for (let at = firstPitch(spans, span); at < firstPitch(spans, span + 1); at++) sum += spans.weight[at] ?? 0;
  return sum;
}
