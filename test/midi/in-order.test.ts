import fc from 'fast-check';
import { expect, it } from 'vitest';
import { indicesInOrder } from '../../src/midi/in-order.js';
import { draws } from '../support/draws.js';

/** Numbers that mostly rise, as ticks do of which some are moved; and such as have no order at all. */
const numbers = fc.oneof(
  fc.array(fc.tuple(fc.nat(3), fc.integer({ min: -9, max: 9 })), { maxLength: 300 }).map((steps) => {
    let at = 0;
    return steps.map(([step, by]) => {
      at += step;
      return at + by;
    });
  }),
  fc.array(fc.nat(40), { maxLength: 300 }),
);

it('is what a stable sort makes of it', () => {
  fc.assert(
    fc.property(numbers, (list) => {
      const found = indicesInOrder(list.length, (one, other) => (list[one] ?? 0) < (list[other] ?? 0));
      const sorted = list.map((_, index) => index).sort((a, b) => (list[a] ?? 0) - (list[b] ?? 0));
      expect([...found]).toEqual(sorted);
    }),
    { seed: 61, numRuns: draws(400) },
  );
});
