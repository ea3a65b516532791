import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceAt, type Sounding, tolerated } from '../../../src/music/balance/covering.js';
import { instrumentKinds } from '../../../src/music/instruments/index.js';
import { draws } from '../../support/draws.js';

const [p, f] = [2, 5];
const horns: Sounding = { name: 'horns', kind: 'horn', players: 4, level: f, role: 'melody' };
const trumpets: Sounding = { name: 'trumpets', kind: 'trumpet', players: 2, level: f, role: 'harmony' };
const flutes: Sounding = { name: 'flutes', kind: 'woodwind', players: 2, level: f, role: 'harmony' };

describe('balanceAt', () => {
  it('has four horns and two trumpets in balance in forte', () => {
    const { loudness, covered } = balanceAt([horns, trumpets]);
    expect(loudness[0]).toBeCloseTo(loudness[1] ?? 0, 10);
    expect(covered).toEqual([]);
  });

  it('has two trumpets under four horns in piano by 3 dB', () => {
    const soft = balanceAt([
      { ...horns, level: p, role: 'harmony' },
      { ...trumpets, level: p, role: 'melody' },
    ]);
    expect(soft.covered).toEqual([
      { name: 'trumpets', by: 'horns', excess: expect.closeTo(3.0103, 4), suggested: -3 },
    ]);
  });

  it('names what covers a melody, and by how much to change it', () => {
    const flute: Sounding = { ...flutes, name: 'flute', players: 1, role: 'melody' };
    const { covered } = balanceAt([flute, trumpets, { ...horns, players: 2, role: 'harmony' }]);
    // one woodwind against eight: 10 · log10 8; the horns lie within twice the difference of the trumpets
    expect(covered).toEqual([
      { name: 'flute', by: 'trumpets', excess: expect.closeTo(9.031, 3), suggested: -9 },
    ]);
  });

  it('lets an accompaniment be twice as strong as another, and a melody as strong as it likes', () => {
    const names = (sections: readonly Sounding[]) => balanceAt(sections).covered.map(({ name }) => name);
    expect(names([{ ...horns, players: 2, role: 'bass' }, flutes])).toEqual([]);
    expect(names([{ ...horns, players: 3, role: 'bass' }, flutes])).toEqual(['flutes']);
    expect(names([{ ...horns, players: 12 }, flutes])).toEqual([]);
    expect(names([horns])).toEqual([]);
    expect(names([])).toEqual([]);
  });

  it('counts what the mix adds', () => {
    expect(balanceAt([horns, { ...trumpets, gain: 2 }]).covered[0]?.suggested).toBe(-2);
    expect(balanceAt([horns, { ...trumpets, gain: -2 }]).covered).toEqual([]);
  });

  it('has what is said to be covered weaker, and nothing left of it when the advice is followed', () => {
    const sections = fc.array(
      fc.record({
        kind: fc.constantFrom(...instrumentKinds),
        players: fc.integer({ min: 1, max: 16 }),
        level: fc.double({ min: 0, max: 7, noNaN: true }),
        role: fc.constantFrom('melody' as const, 'harmony' as const, 'bass' as const),
      }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(sections, (all) => {
        const named = all.map((one, index): Sounding => ({ ...one, name: `s${index}` }));
        const { loudness, covered } = balanceAt(named);
        const level = (name: string) => loudness[Number(name.slice(1))] ?? Number.NaN;
        const others = named.filter(({ role }) => role !== 'melody').map(({ name }) => level(name));
        for (const { name, by, excess, suggested } of covered) {
          expect(level(by)).toBe(Math.max(...others));
          expect(excess).toBeCloseTo(level(by) - level(name), 10);
          expect(suggested).toBeLessThan(0);
          const isMelody = named.find((one) => one.name === name)?.role === 'melody';
          const left = level(by) + suggested - level(name);
          expect(left).toBeLessThanOrEqual((isMelody ? tolerated.overMelody : tolerated.overOthers) + 0.0501);
        }
      }),
      { seed: 6, numRuns: draws(300) },
    );
  });
});
