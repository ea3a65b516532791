import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Likenesses, type Step } from '../../../src/compile/decide/likenesses.js';
import { draws } from '../../support/draws.js';

const cost = fc.integer({ min: 0, max: 9 });
const held = fc.array(
  cost.map((cost) => ({ measure: 'heldMs', to: 100 + cost, cost, at: 100, value: 90 }) as const),
);
const pace = fc.array(
  cost.map((cost) => ({ measure: 'paceMs', to: 200 + cost, cost, at: 200, value: 190 }) as const),
);
const next = fc.array(
  cost.map((cost) => ({ measure: 'overlapsNext', to: 1, cost, at: 1, value: 0.9 }) as const),
  { maxLength: 1 },
);
const measures = fc.tuple(
  held.map((of) => of.slice(0, 4)),
  pace.map((of) => of.slice(0, 4)),
  next,
);

describe('all that a note might as well have been', () => {
  it('is each choice of steps, one of each measure at most, the note itself first', () => {
    const likenesses = new Likenesses();
    fc.assert(
      fc.property(measures, (of) => {
        const all = of.reduce<readonly (readonly Step[])[]>(
          (before, steps) => before.concat(before.flatMap((one) => steps.map((step) => one.concat(step)))),
          [[]],
        );
        // One object serves note after note.
        likenesses.begin();
        for (const steps of of) {
          for (const { measure, to, cost, at, value } of steps) likenesses.step(measure, to, cost, at, value);
          likenesses.endMeasure();
        }
        const found = Array.from({ length: likenesses.length }, (_, likeness) => likeness);
        expect(found.map((likeness) => likenesses.stepsOf(likeness))).toEqual(all);
        expect(found.map((likeness) => likenesses.cost(likeness))).toEqual(
          all.map((steps) => steps.reduce((sum, { cost }) => sum + cost, 0)),
        );
      }),
      { numRuns: draws(200) },
    );
  });
});
