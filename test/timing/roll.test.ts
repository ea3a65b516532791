import { describe, expect, it } from 'vitest';
import { farthest, type NoteKey } from '../../src/timing/hash.js';
import { type RollOrder, roll, rollOrders } from '../../src/timing/roll.js';

const SD = 18;

const chord = (position: number, pitches: readonly number[], seed = 1): readonly NoteKey[] =>
  pitches.map((pitch) => ({ seed, part: '1/1', pitch, position, occurrence: 0 }));

const triads = Array.from({ length: 4000 }, (_, index) => chord(index * 480, [60, 67, 64]));

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const variance = (values: readonly number[]) => {
  const centre = mean(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1);
};

describe('roll', () => {
  const rolled = (order: RollOrder, chords = triads) =>
    chords.map((notes) => roll(notes, { sdMs: SD, order }));

  it('has the option as the standard deviation of each player’s offset, over 4,000 chords', () => {
    for (const pitches of [
      [60, 67],
      [60, 64, 67],
      [48, 60, 64, 67, 72, 76],
    ]) {
      const chords = Array.from({ length: 4000 }, (_, index) => chord(index * 480, pitches));
      const sd = Math.sqrt(variance(rolled('unordered', chords).flat()));
      expect(sd / SD, `${pitches.length} notes`).toBeGreaterThan(0.95);
      expect(sd / SD, `${pitches.length} notes`).toBeLessThan(1.03);
    }
  });

  it('has the option as the standard deviation within a chord, in every order', () => {
    for (const order of ['unordered', 'low-high', 'high-low'] as const) {
      const sd = Math.sqrt(mean(rolled(order).map(variance)));
      expect(sd / SD, order).toBeGreaterThan(0.95);
      expect(sd / SD, order).toBeLessThan(1.05);
    }
  });

  it('has nobody lead, unless it is asked for: each note is as often early as late', () => {
    const offsets = rolled('unordered');
    for (const index of [0, 1, 2]) {
      const early = offsets.filter((chord) => (chord[index] ?? 0) < 0).length;
      // 4 standard errors of 4,000 tosses
      expect(Math.abs(early / 4000 - 0.5)).toBeLessThan(0.032);
    }
  });

  it('spreads two players by √2 times as much as one (differences of independent offsets)', () => {
    const differences = rolled('unordered').map(([low = 0, top = 0]) => low - top);
    expect(Math.sqrt(variance(differences)) / (SD * Math.SQRT2)).toBeGreaterThan(0.95);
    expect(Math.sqrt(variance(differences)) / (SD * Math.SQRT2)).toBeLessThan(1.03);
  });

  it('has the highest note first and never late with top-first', () => {
    for (const [low, top, middle] of rolled('top-first')) {
      expect(top).toBeLessThanOrEqual(0);
      expect(top).toBeLessThanOrEqual(Math.min(low ?? 0, middle ?? 0));
    }
  });

  it('keeps notes of one pitch in the order in which they were played', () => {
    for (const order of rollOrders)
      for (let position = 0; position < 500; position += 1) {
        const notes = [62, 67, 62, 62].map((pitch, at) => ({
          ...(chord(position * 480 + at, [pitch])[0] as NoteKey),
        }));
        const [first = 0, , second = 0, third = 0] = roll(notes, { sdMs: SD, order });
        expect(first).toBeLessThanOrEqual(second);
        expect(second).toBeLessThanOrEqual(third);
      }
  });

  it('keeps the order that was asked for', () => {
    for (const [low, top, middle] of rolled('low-high')) {
      expect(low).toBeLessThanOrEqual(middle ?? 0);
      expect(middle).toBeLessThanOrEqual(top ?? 0);
    }
    for (const [low, top, middle] of rolled('high-low')) {
      expect(top).toBeLessThanOrEqual(middle ?? 0);
      expect(middle).toBeLessThanOrEqual(low ?? 0);
    }
  });

  it('has either of the lower notes first, about as often, where it is unordered', () => {
    const lowFirst = rolled('unordered').filter(([low, , middle]) => (low ?? 0) < (middle ?? 0)).length;
    // 4 standard errors of 4,000 tosses
    expect(Math.abs(lowFirst / 4000 - 0.5)).toBeLessThan(0.032);
  });

  it('stays within its bound', () => {
    const all = rolled('unordered').flat();
    expect(Math.max(...all.map(Math.abs))).toBeLessThanOrEqual(farthest * SD);
    expect(Math.max(...all.map(Math.abs))).toBeGreaterThan(2 * SD);
  });

  it('depends on its own chord alone, whatever the order of its notes', () => {
    const [a, b] = [roll(chord(0, [60, 64, 67]), { sdMs: SD, order: 'unordered' }), rolled('unordered')[0]];
    expect(a).toEqual([b?.[0], b?.[2], b?.[1]]);
    expect(roll(chord(0, [60, 64, 67], 2), { sdMs: SD, order: 'unordered' })).not.toEqual(a);
  });

  it('leaves a single note, and everything at 0 ms, where it was', () => {
    expect(roll(chord(0, [60]), { sdMs: SD, order: 'unordered' })).toEqual([0]);
    for (const offset of roll(chord(0, [60, 64]), { sdMs: 0, order: 'unordered' }))
      expect(offset).toBeCloseTo(0);
  });
});
