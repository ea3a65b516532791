import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { features } from '../../src/learn/features.js';
import { columnsOf, decideRules, type Ladder } from '../../src/learn/ladder.js';
import { steadyRules } from '../../src/learn/steadiness.js';
import { inventLadder, inventNotes, random } from './invented.js';

const heldShare = features.find(({ key }) => key === 'held-share');
const half = heldShare?.bounds.find(({ text }) => text === '50%');

function shortBelowHalf(): Ladder {
  if (!heldShare || !half) throw new Error('no such feature');
  return [
    { tests: [{ feature: heldShare, from: null, below: half }], articulation: 0 },
    { tests: [], articulation: 1 },
  ];
}

function lineOf(shares: readonly number[]) {
  return { ...inventNotes(shares.length, random(1), 1), heldShare: Float64Array.from(shares) };
}

function steady(shares: readonly number[], band: number): readonly number[] {
  const notes = lineOf(shares);
  return [...steadyRules(shortBelowHalf(), notes, columnsOf(notes), band)];
}

/** The cheapest of all sequences, each of them tried. */
function cheapestOfAll(shares: readonly number[], band: number): number {
  let least = Infinity;
  for (let sequence = 0; sequence < 2 ** shares.length; sequence++)
    least = Math.min(
      least,
      costOf(
        shares,
        shares.map((_, row) => (sequence >> row) & 1),
        band,
      ),
    );
  return least;
}

/** The published cost (4 nats a change; −ln of a logistic in ln(bound / measure) / (ln(1 + band) / 3)), written anew. */
function costOf(shares: readonly number[], sides: readonly number[], band: number): number {
  return shares.reduce((cost, share, row) => {
    const side = sides[row] ?? 0;
    const by = Math.log(50 / share) / (Math.log(1 + band) / 3);
    const own = -Math.log(1 / (1 + Math.exp(side === 0 ? -by : by)));
    const fixed = Math.abs(Math.log(50 / share)) > Math.log(1 + band);
    const wrong = fixed && side !== (share < 50 ? 0 : 1);
    const change = row > 0 && side !== sides[row - 1] ? 4 : 0;
    return cost + (wrong ? Infinity : fixed ? 0 : own) + change;
  }, 0);
}

describe('steadyRules', () => {
  it('is the cheapest of all sequences', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 20, max: 120, noNaN: true }), { minLength: 1, maxLength: 9 }),
        fc.constantFrom(0.15, 0.4, 0.5),
        (shares, band) => {
          const found = costOf(shares, steady(shares, band), band);
          expect(found).toBeCloseTo(cheapestOfAll(shares, band), 9);
        },
      ),
    );
  });

  it('keeps a stray note with its neighbours, and lets one beyond the band be', () => {
    expect(steady([30, 30, 55, 30, 30], 0.4)).toEqual([0, 0, 0, 0, 0]);
    expect(steady([30, 30, 90, 30, 30], 0.4)).toEqual([0, 0, 1, 0, 0]);
  });

  it('is the plain ladder at 0 %, and wherever no measure is near a bound', () => {
    for (let seed = 1; seed <= 5; seed++) {
      const next = random(seed);
      const notes = inventNotes(300, next);
      const ladder = inventLadder(notes, 5, next);
      const columnOf = columnsOf(notes);
      expect([...steadyRules(ladder, notes, columnOf, 0)]).toEqual([...decideRules(ladder, 300, columnOf)]);
    }
  });

  it('does not look over the end of a piece', () => {
    const notes = { ...lineOf([30, 55, 90]), piece: [0, 1, 1] };
    expect([...steadyRules(shortBelowHalf(), notes, columnsOf(notes), 0.4)]).toEqual([0, 1, 1]);
  });
});
