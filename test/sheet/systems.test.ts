import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { type Engraver, sharedEngraver } from '../../src/sheet/engrave/index.js';
import { notate } from '../../src/sheet/notate/index.js';
import { engravedSystems } from '../../src/sheet/systems.js';
import { draws } from '../support/draws.js';
import { randomScore } from './notate/random.js';

let engrave: Engraver;
beforeAll(async () => {
  engrave = await sharedEngraver();
});

it('every note has its place, whichever staves its system has', () => {
  fc.assert(
    fc.property(randomScore, (score) => {
      const notation = notate(score);
      const systems = [...engravedSystems(notation, engrave)];
      expect(systems.map(({ staves }) => staves.length / 2)).toEqual(
        notation.shown.map(({ length }) => length),
      );
      const placed = new Set(systems.flatMap(({ places }) => [...places.keys()]));
      const notes = score.staves.flatMap(({ notes: of }) => of.map(({ id }) => id));
      expect(notes.filter((id) => !placed.has(id))).toEqual([]);
    }),
    { numRuns: draws(12) },
  );
});

it('systems that are engraved piece by piece are as those that are engraved together', () => {
  fc.assert(
    fc.property(randomScore, fc.integer({ min: 1, max: 4 }), (score, size) => {
      const notation = notate({ ...score, resting: true });
      const told: number[] = [];
      const tell = (done: number) => told.push(done);
      expect([...engravedSystems(notation, engrave, tell, size)]).toEqual(engrave(notation.mei));
      expect(told.at(-1)).toBe((notation.bars.at(-1)?.system ?? 0) + 1);
    }),
    { numRuns: draws(12) },
  );
});
