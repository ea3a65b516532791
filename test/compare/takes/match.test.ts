import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matched, type Placed } from '../../../src/compare/takes/match.js';

const note = (place: number, pitch = 60): Placed => ({ place, pitch });

describe('the notes of two takes', () => {
  it('are one where they stand at one place, also where another is as near', () => {
    expect(matched([note(0), note(10)], [note(10), note(5)], 5)).toEqual([
      [1, 0],
      [0, 1],
    ]);
  });

  it('are one where they were moved a little, and two where they were moved far, or to another key', () => {
    expect(matched([note(0)], [note(5)], 5)).toEqual([[0, 0]]);
    expect(matched([note(0)], [note(6)], 5)).toEqual([]);
    expect(matched([note(0)], [note(0, 61)], 5)).toEqual([]);
    expect(matched([note(0)], [note(Number.NaN)], 5)).toEqual([]);
  });

  it('are taken nearest first', () => {
    expect(matched([note(0), note(4)], [note(3), note(8)], 5)).toEqual([[1, 0]]);
    expect(matched([note(0), note(4)], [note(3), note(-2)], 5)).toEqual([
      [1, 0],
      [0, 1],
    ]);
  });

  const notes = fc.array(
    fc.record({ place: fc.integer({ min: 0, max: 60 }), pitch: fc.integer({ min: 60, max: 62 }) }),
    { maxLength: 30 },
  );

  it('are each in one pair at most, near enough and of one pitch, and none that could be paired is left', () => {
    fc.assert(
      fc.property(notes, notes, (first, second) => {
        const pairs = matched(first, second, 4);
        const [ours, theirs] = [new Set(pairs.map(([one]) => one)), new Set(pairs.map(([, other]) => other))];
        expect([ours.size, theirs.size]).toEqual([pairs.length, pairs.length]);
        const canPair = (a: Placed | undefined, b: Placed | undefined) =>
          a?.pitch === b?.pitch && Math.abs((a?.place ?? 0) - (b?.place ?? 0)) <= 4;
        for (const [one, other] of pairs) expect(canPair(first[one], second[other])).toBe(true);
        for (const [one, left] of first.entries())
          for (const [other, right] of second.entries())
            if (!ours.has(one) && !theirs.has(other)) expect(canPair(left, right)).toBe(false);
      }),
    );
  });

  it('are all in pairs with themselves', () => {
    fc.assert(
      fc.property(notes, (all) => {
        for (const [one, other] of matched(all, all, 4)) expect(all[one]).toEqual(all[other]);
        expect(matched(all, all, 4)).toHaveLength(all.length);
      }),
    );
  });
});
