import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Candidates, changeCost, steadiest } from '../../../src/compile/decide/steadiness.js';
import { decided, detached } from '../../support/decided.js';
import { ladderMap, mapOf } from '../../support/map.js';

/** A ladder by lengths alone. */
const ladder = `articulations:
  short: {switch: {note: C0}}
  medium: {switch: {note: D0}}
  long: {switch: {note: E0}}
rules:
  - when: {held: {below: 130ms}}
    use: short
  - when: {held: {below: 320ms}}
    use: medium
  - use: long
`;
const at = (share: number) => mapOf(`steadiness: ${share}%\n${ladder}`);
const plain = mapOf(ladder);
const names = (map: typeof plain, lengths: readonly number[]) =>
  decided(map, detached(lengths)).map(({ articulation }) => articulation);
const changes = (list: readonly (string | number)[]) =>
  list.filter((name, index) => index > 0 && name !== list[index - 1]).length;

/** Lengths of which many lie around the bounds of the ladder, 130 and 320 ms. Unit: ms. */
const lengths = fc.array(
  fc.oneof(
    fc.integer({ min: 90, max: 180 }),
    fc.integer({ min: 220, max: 420 }),
    fc.integer({ min: 20, max: 900 }),
  ),
  {
    maxLength: 40,
  },
);

describe('steadiness', () => {
  it('is off unless the map asks for it, and 0 % is the plain ladder', () => {
    expect(names(plain, [125, 135, 125])).toEqual(['short', 'medium', 'short']);
    fc.assert(
      fc.property(lengths, (of) => {
        expect(names(at(0), of)).toEqual(names(plain, of));
      }),
      { seed: 1 },
    );
  });

  it('keeps single notes by a bound with those around them, before and after', () => {
    expect(names(at(40), [100, 100, 140, 100, 100])).toEqual(['short', 'short', 'short', 'short', 'short']);
    // The first note goes with what comes, not only with what was.
    expect(names(at(40), [125, 200, 210, 200])).toEqual(['medium', 'medium', 'medium', 'medium']);
  });

  it('gives way where more notes lie clear of the bound than a change is worth', () => {
    expect(names(at(40), [70, 70, 220, 220])).toEqual(['short', 'short', 'medium', 'medium']);
  });

  it('says what the plain ladder gave, what was measured, and what the note was kept with', () => {
    const found = decided(at(40), detached([100, 100, 140, 100]));
    expect(found[2]).toMatchObject({
      articulation: 'short',
      rule: 0,
      insteadOf: 1,
      kept: { before: 2, after: 1, near: [{ measure: 'held', value: 140, at: 130, unit: 'ms' }] },
    });
    expect(found[0]).not.toHaveProperty('insteadOf');
  });

  it('knows that touching is a matter of degree', () => {
    // Held 89 to 112 of 100 ms: joined where it is held to the next onset, or as good as that.
    const held = [112, 112, 89, 112, 112];
    const [without, steady] = [mapOf(ladderMap), mapOf(`steadiness: 40%\n${ladderMap}`)];
    const joined = (map: typeof plain) =>
      decided(
        map,
        held.map((length, index) => ({ tick: index * 100, end: index * 100 + length, pitch: 60 + index })),
      )
        .slice(0, 4)
        .map(({ articulation }) => articulation);
    expect(joined(without)).toEqual(['joined', 'joined', 'short', 'joined']);
    expect(joined(steady)).toEqual(['joined', 'joined', 'joined', 'joined']);
  });

  it('never makes more changes than the plain ladder', () => {
    fc.assert(
      fc.property(lengths, fc.constantFrom(10, 30, 40, 60), (of, share) => {
        expect(changes(names(at(share), of))).toBeLessThanOrEqual(changes(names(plain, of)));
      }),
      { seed: 2 },
    );
  });

  it('leaves notes that lie outside every band as the plain ladder has them', () => {
    fc.assert(
      fc.property(lengths, fc.constantFrom(10, 30), (of, share) => {
        const steady = names(at(share), of);
        const without = names(plain, of);
        of.forEach((length, index) => {
          const isClear = [130, 320].every((bound) => Math.abs(length - bound) >= (share / 100) * bound);
          if (isClear) expect(steady[index]).toBe(without[index]);
        });
      }),
      { seed: 3 },
    );
  });

  it('is not changed between two clear notes by anything beyond them', () => {
    fc.assert(
      fc.property(lengths, lengths, lengths, (before, between, after) => {
        const whole = names(at(30), [...before, 60, ...between, 600, ...after]);
        const alone = names(at(30), [60, ...between, 600]);
        expect(whole.slice(before.length, before.length + between.length + 2)).toEqual(alone);
      }),
      { seed: 4 },
    );
  });

  it('is the cheapest of all ways, as trying every one of them shows', () => {
    const candidate = fc.record({
      articulation: fc.integer({ min: 0, max: 2 }),
      cost: fc.integer({ min: 0, max: 9 }),
    });
    const line = fc.array(
      fc.uniqueArray(candidate, { selector: (one) => one.articulation, minLength: 1, maxLength: 3 }),
      { minLength: 1, maxLength: 7 },
    );
    const total = (path: readonly { articulation: number; cost: number }[]) =>
      path.reduce((sum, { cost }) => sum + cost, 0) +
      changeCost * changes(path.map(({ articulation }) => articulation));
    const candidatesOf = (onsets: readonly (readonly { articulation: number; cost: number }[])[]) => {
      const all = onsets.flat();
      let asked = 0;
      return {
        articulations: all.map(({ articulation }) => articulation),
        costs: all.map(({ cost }) => cost),
        get from() {
          return onsets.slice(0, asked).flat().length;
        },
        get to() {
          return onsets.slice(0, asked + 1).flat().length;
        },
        find: (onset) => {
          asked = onset;
        },
      } satisfies Candidates;
    };
    fc.assert(
      fc.property(line, (onsets) => {
        const ways = onsets.reduce<(typeof onsets)[number][]>(
          (found, choices) => found.flatMap((way) => choices.map((choice) => [...way, choice])),
          [[]],
        );
        const { articulation, candidate } = steadiest(onsets.length, candidatesOf(onsets));
        const found = onsets.flatMap((of, onset) => of[candidate[onset] ?? 0] ?? []);
        expect(found.map((one) => one.articulation)).toEqual(Array.from(articulation));
        expect(total(found)).toBe(Math.min(...ways.map(total)));
      }),
      { seed: 5 },
    );
  });
});
