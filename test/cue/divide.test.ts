import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dealt } from '../../src/cue/divide.js';
import { deals } from '../../src/cue/types.js';

describe('notes dealt to players', () => {
  it.each([
    ['top-down', [6, 6], 1, [12]],
    ['top-down', [6, 6], 2, [6, 6]],
    ['top-down', [6, 6], 3, [3, 3, 6]],
    ['top-down', [6, 6], 4, [3, 3, 3, 3]],
    ['top-down', [6, 6], 5, [2, 2, 2, 3, 3]],
    ['top-down', [8, 4], 2, [8, 4]],
    ['top-down', [4, 4, 4], 2, [8, 4]],
    ['top-down', [5], 2, [3, 2]],
    ['bottom-up', [6, 6], 3, [6, 3, 3]],
    ['bottom-up', [8, 4], 2, [4, 8]],
    ['bottom-up', [5], 2, [2, 3]],
    ['in-turn', [6, 6], 3, [4, 4, 4]],
    ['in-turn', [6, 6], 5, [3, 3, 2, 2, 2]],
    ['in-turn', [1, 1], 3, [1, 1, 1]],
    ['top-down', [1, 1], 3, [1, 1, 1]],
    ['top-down', [1, 2], 3, [1, 1, 1]],
  ] as const)('%s, desks of %j, %i notes: %j', (by, players, notes, wanted) => {
    expect(dealt(notes, { by, players })).toEqual(wanted);
  });

  it('are played by all players together, each by one at least, and a single note by everybody', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...deals),
        fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 12 }),
        (by, players, notes) => {
          const counts = dealt(notes, { by, players });
          const all = players.reduce((sum, one) => sum + one, 0);
          expect(counts).toHaveLength(notes);
          expect(Math.min(...counts)).toBeGreaterThanOrEqual(1);
          // Nobody plays two notes, and nobody none.
          if (notes <= all) expect(counts.reduce((sum, one) => sum + one, 0)).toBe(all);
          expect(dealt(1, { by, players })).toEqual([all]);
          if (by === 'in-turn') expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
        },
      ),
    );
  });
});
