import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Segment, segmentsOf } from '../../../src/music/harmony/segments.js';
import { isSilent, type Spans, spansOf, spanTick } from '../../../src/music/harmony/spans.js';
import { templateScore } from '../../../src/music/harmony/templates.js';
import { soundingWeight, WeightSums } from '../../../src/music/harmony/weight-sums.js';
import { draws } from '../../support/draws.js';
import { musicInLines } from './random.js';

const unit = 4;
const isBeat = (tick: number) => tick % unit === 0;

/** What it costs that a segment begins with a span. */
function changeCost(spans: Spans, start: number): number {
  const share = Math.max(0, Math.min(1, (soundingWeight(spans, start) - 1) / 3));
  return 0.5 + (0.1 - 0.5) * share + (isBeat(spanTick(spans, start)) ? 0 : 0.7);
}

/** The best path with a score for every segment of up to 16 spans. */
function plainly(spans: Spans): readonly Segment[] {
  const sums = new WeightSums(spans, unit, spans.length + 1);
  const found = [{ score: 0, from: 0 }];
  for (let end = 1; end <= spans.length; end++) {
    let best = { score: Number.NEGATIVE_INFINITY, from: 0 };
    for (let from = end - 1; from >= Math.max(0, end - 16); from--) {
      const own = templateScore(sums.sums, sums.rowAt(from), sums.rowAt(end), Number.NEGATIVE_INFINITY);
      const score = (found[from]?.score ?? 0) - changeCost(spans, from) + own;
      // Of paths that are as good the one whose last segment is shorter.
      if (score > best.score + 1e-12) best = { score, from };
    }
    found.push(best);
  }
  const path: Segment[] = [];
  for (let to = spans.length; to > 0; to = found[to]?.from ?? 0)
    path.unshift({ from: found[to]?.from ?? 0, to });
  return path.flatMap((segment) => trimmed(spans, segment));
}

function trimmed(spans: Spans, { from, to }: Segment): readonly Segment[] {
  const sounding = Array.from({ length: to - from }, (_, at) => from + at).filter(
    (span) => !isSilent(spans, span),
  );
  const [first, last] = [sounding[0], sounding.at(-1)];
  return first === undefined || last === undefined ? [] : [{ from: first, to: last + 1 }];
}

describe('the best path of segments', () => {
  it('is found as if every segment were scored', () => {
    fc.assert(
      fc.property(musicInLines({ longSilences: false }), ({ notes, lines }) => {
        const spans = spansOf(notes, lines);
        expect([...segmentsOf(spans, { unit, isBeat })]).toEqual(plainly(spans));
      }),
      { numRuns: draws(300) },
    );
  });
});
