import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Layout } from '../../../src/arrange/voice/layouts.js';
import { cheapestPath, stepCost } from '../../../src/arrange/voice/search.js';

/** The least cost of all paths, by trying every one. */
function exhaustive(chords: readonly (readonly Layout[])[], tuneVoice: number): number {
  const from = (index: number, before: readonly number[] | undefined): number => {
    const layouts = chords[index];
    if (!layouts) return 0;
    return Math.min(
      ...layouts.map(({ pitches, cost }) => {
        const step = before ? stepCost(before, pitches, tuneVoice) : 0;
        return cost + step + from(index + 1, pitches);
      }),
    );
  };
  return from(0, undefined);
}

const chords = fc.integer({ min: 1, max: 3 }).chain((voices) => {
  const pitch = fc.oneof(
    { weight: 9, arbitrary: fc.integer({ min: 40, max: 60 }) },
    { weight: 1, arbitrary: fc.constant(-1) },
  );
  const layout = fc.record({
    pitches: fc.array(pitch, { minLength: voices, maxLength: voices }),
    cost: fc.integer({ min: 0, max: 3000 }),
  });
  return fc.array(fc.array(layout, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 5 });
});

describe('cheapestPath', () => {
  it('finds what trying every path finds', () => {
    fc.assert(
      fc.property(chords, fc.integer({ min: -1, max: 2 }), (layouts, tuneVoice) => {
        const { chosen, cost } = cheapestPath(layouts, tuneVoice);
        expect(cost).toBe(exhaustive(layouts, tuneVoice));
        const taken = chosen.map((at, index) => layouts[index]?.[at]);
        const sum = taken.reduce((all, layout, index) => {
          const before = taken[index - 1];
          const step = before && layout ? stepCost(before.pitches, layout.pitches, tuneVoice) : 0;
          return all + (layout?.cost ?? Number.NaN) + step;
        }, 0);
        expect(sum).toBe(cost);
      }),
    );
  });

  it('has no path through nothing', () => {
    expect(cheapestPath([], -1)).toEqual({ chosen: [], cost: 0 });
  });
});
