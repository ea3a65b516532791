import fc from 'fast-check';
import { expect, it } from 'vitest';
import { curveThrough } from '../../src/dynamics/curve.js';
import { heldOverSpreads } from '../../src/dynamics/spread.js';
import { draws } from '../support/draws.js';
import { line } from './struck.js';

const rising = [
  { at: 0, level: 2 },
  { at: 1000, level: 4 },
];

it('leaves a line without spread chords as it is', () => {
  expect(heldOverSpreads(rising, line([{ pace: 500 }, { pace: 500 }]))).toBe(rising);
});

it('stands still over a spread at the level of its last note', () => {
  const { valueAt, valueBefore } = curveThrough(
    heldOverSpreads(rising, line([{ pace: 500 }, { pace: 500, spread: 50 }])),
  );
  const plain = curveThrough(rising);
  expect(valueBefore(500)).toBe(plain.valueAt(500));
  expect([500, 525, 550].map(valueAt)).toEqual([550, 550, 550].map(plain.valueAt));
  expect(valueAt(1000)).toBe(4);
});

it('holds over every spread, and its places never fall, for any targets', () => {
  const targets = fc
    .array(fc.record({ after: fc.integer({ min: 0, max: 300 }), level: fc.integer({ min: 0, max: 7 }) }), {
      minLength: 1,
      maxLength: 30,
    })
    .map((steps) => {
      let at = 0;
      return steps.map(({ after, level }) => {
        at += after;
        return { at, level };
      });
    });
  const notes = fc.array(
    fc.record({ pace: fc.integer({ min: 50, max: 900 }), spread: fc.integer({ min: 0, max: 49 }) }),
    { maxLength: 20 },
  );
  fc.assert(
    fc.property(targets, notes, (given, written) => {
      const onsets = line(written);
      const held = heldOverSpreads(given, onsets);
      held.forEach(({ at }, index) => {
        expect(at).toBeGreaterThanOrEqual(held[index - 1]?.at ?? 0);
      });
      const { valueAt } = curveThrough(held);
      for (const { tick, lastTick } of onsets)
        for (let at = tick; lastTick > tick && at <= lastTick; at += 1)
          expect(valueAt(at)).toBe(valueAt(tick));
    }),
    { numRuns: draws(200) },
  );
});
