import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveThrough } from '../../src/dynamics/curve.js';
import { controllerPoints } from '../../src/dynamics/hold.js';
import { identityLevels, levelScale } from '../../src/dynamics/levels.js';
import { contourTolerance, defaultShape, type ShapeOptions, shapeTargets } from '../../src/dynamics/shape.js';
import { draws } from '../support/draws.js';
import { line, type Written } from './struck.js';

const plain: ShapeOptions = { base: 4, arch: 0, velocities: 0, swell: 0, decay: 0, longMs: 1200 };
const even = (count: number, change: (index: number) => Partial<Written> = () => ({})) =>
  Array.from({ length: count }, (_, index): Written => ({ pace: 400, ...change(index) }));
const curveOf = (notes: readonly Written[], options: Partial<ShapeOptions>) =>
  curveThrough(shapeTargets(line(notes), { ...plain, ...options }));

describe('shapeTargets', () => {
  it('is the base where nothing is asked for', () => {
    const base = [
      { at: 0, level: 2 },
      { at: 1000, level: 2 },
      { at: 1000, level: 5 },
      { at: 2500, level: 6 },
    ];
    const { valueAt } = curveOf(even(8), { base });
    expect([0, 999, 1000, 2500, 3200].map(valueAt)).toEqual([2, 2, 5, 6, 6]);
    expect(shapeTargets([], plain)).toEqual([]);
  });

  it('arches over a phrase, about the base, with its top at the highest note', () => {
    const pitches = [60, 62, 64, 65, 67, 72, 67, 64, 62, 60];
    const { valueAt } = curveOf(
      even(10, (i) => ({ pitch: pitches[i] ?? 60 })),
      { arch: 1 },
    );
    const heard = Array.from({ length: 41 }, (_, i) => valueAt(i * 100));
    const top = Math.max(...heard);
    expect(top).toBeCloseTo(4.5, 1);
    expect(heard.indexOf(top)).toBe(20);
    expect([heard[0], heard[40]]).toEqual([3.5, 3.5]);
    heard.slice(1).forEach((value, i) => {
      expect(Math.sign(value - (heard[i] ?? 0))).toBe(i < 20 ? 1 : -1);
    });
  });

  it('begins each phrase anew after a rest, in which nothing moves', () => {
    const notes = even(16, (i) => (i === 7 ? { pace: 1600, held: 400 } : {}));
    const { valueAt } = curveOf(notes, { arch: 1 });
    // the first phrase ends at 3200, the second begins at 4400
    expect([3200, 3800, 4399, 4400].map(valueAt)).toEqual([3.5, 3.5, 3.5, 3.5]);
    const louder = curveOf(
      notes.map((note, i) => ({ ...note, velocity: i < 8 ? 60 : 90 })),
      { velocities: 1 },
    );
    expect([3200, 4399, 4400].map(louder.valueAt)).toEqual([3, 3, 5]);
  });

  it('goes over into the next phrase where there is no rest', () => {
    const notes = even(16, (i) => ({ breath: i === 7, velocity: i < 8 ? 60 : 90 }));
    const { valueAt } = curveOf(notes, { velocities: 1 });
    const values = Array.from({ length: 401 }, (_, i) => valueAt(2800 + i));
    expect([values[0], values[400]]).toEqual([3, 5]);
    values.slice(1).forEach((value, i) => {
      expect(value - (values[i] ?? 0)).toBeLessThan(0.02);
    });
  });

  it('follows the note velocities within its tolerance, by the share asked for', () => {
    const velocity = fc.integer({ min: 50, max: 100 });
    fc.assert(
      fc.property(fc.array(velocity, { minLength: 3, maxLength: 40 }), (velocities) => {
        const notes = velocities.map((one): Written => ({ pace: 300, velocity: one }));
        const onsets = line(notes);
        const mean = velocities.reduce((sum, one) => sum + one, 0) / velocities.length;
        const targets = shapeTargets(onsets, { ...plain, velocities: 0.5 });
        // the straight lines between targets are what thinning is true to
        for (const { tick, velocity: played } of onsets) {
          const after = targets.findIndex(({ at }) => at >= tick);
          const to = targets[after];
          const from = targets[after - 1] ?? to;
          if (!from || !to) throw new Error('no target');
          const share = to.at === from.at ? 0 : (tick - from.at) / (to.at - from.at);
          const level = from.level + share * (to.level - from.level);
          expect(Math.abs(level - (4 + (0.5 * (played - mean)) / 15))).toBeLessThanOrEqual(
            contourTolerance + 1e-9,
          );
        }
      }),
      { seed: 14, numRuns: draws(200) },
    );
  });

  it('needs few targets for a long crescendo in the velocities', () => {
    const notes = even(60, (i) => ({ velocity: 40 + i + (i % 2) }));
    expect(shapeTargets(line(notes), { ...plain, velocities: 1 }).length).toBeLessThan(8);
  });

  it('lets a long note swell inside a phrase, and decay at its end', () => {
    const notes = [...even(2), { pace: 2000, pitch: 64 }, ...even(4), { pace: 2000 }].map((note, i) => ({
      ...note,
      breath: i === 7,
    }));
    const long = notes.with(2, { ...notes[2], pace: 2000, breath: false });
    const onsets = line(long).map((one) => ({ ...one, paceMs: 400 }));
    const { valueAt } = curveThrough(shapeTargets(onsets, { ...plain, swell: 0.5, decay: 0.7 }));
    // held from 800 to 2800, loudest at 60 %; the last from 4400 to 6400
    expect([800, 2000, 2800].map(valueAt)).toEqual([4, 4.5, 4]);
    expect([4400, 6400].map(valueAt)).toEqual([4, expect.closeTo(3.3, 9)]);
  });

  it('stands still while a chord is spread, and only then', () => {
    const notes = even(8, (i) => ({ velocity: 50 + 7 * i, spread: i % 3 === 0 ? 70 : 0 }));
    const { valueAt } = curveOf(notes, { ...defaultShape, base: 3 });
    const plainly = curveOf(
      notes.map(({ spread: _, ...note }) => note),
      { ...defaultShape, base: 3 },
    );
    for (let index = 0; index < 8; index += 1) {
      const [from, to] = [index * 400, index * 400 + 70];
      if (index % 3 === 0) for (let at = from; at <= to; at += 1) expect(valueAt(at)).toBe(valueAt(from));
      else expect(valueAt(to)).not.toBe(valueAt(from));
      expect(Math.abs(valueAt(to) - plainly.valueAt(to))).toBeLessThan(2 * contourTolerance);
    }
  });

  it('a dynamic mark that stands within a spread chord counts from its first note', () => {
    const base = [
      { at: 0, level: 2 },
      { at: 430, level: 2 },
      { at: 430, level: 5 },
    ];
    const { valueAt } = curveOf(
      even(4, () => ({ spread: 60 })),
      { base },
    );
    expect([399, 400, 430, 460, 800].map(valueAt)).toEqual([2, 5, 5, 5, 5]);
  });

  it('rises to a target', () => {
    const crescendo = [
      { at: 400, level: 3 },
      { at: 2800, level: 6 },
    ];
    const { valueAt } = curveOf(even(8), { base: crescendo });
    expect([0, 400, 2800].map(valueAt)).toEqual([3, 3, 6]);
    expect(valueAt(1600)).toBeCloseTo(4.5, 6);
  });

  it('stays on the scale of marks, has rising places, and can be written, for any line', () => {
    const written = fc.record({
      pace: fc.integer({ min: 20, max: 3000 }),
      held: fc.integer({ min: 10, max: 3000 }),
      pitch: fc.integer({ min: 40, max: 80 }),
      velocity: fc.integer({ min: 1, max: 127 }),
      breath: fc.boolean(),
      spread: fc.integer({ min: 0, max: 19 }),
    });
    const scale = levelScale(identityLevels);
    fc.assert(
      fc.property(
        fc.array(written, { minLength: 1, maxLength: 40 }),
        fc.double({ min: 0, max: 7, noNaN: true }),
        (notes, base) => {
          const targets = shapeTargets(line(notes), { ...defaultShape, base });
          targets.forEach(({ at, level }, index) => {
            expect(level).toBeGreaterThanOrEqual(0);
            expect(level).toBeLessThanOrEqual(7);
            expect(Number.isInteger(at)).toBe(true);
            expect(at).toBeGreaterThanOrEqual(targets[index - 1]?.at ?? 0);
          });
          const levels = curveThrough(targets);
          const points = controllerPoints({ ...levels, valueAt: (at) => scale(levels.valueAt(at)) });
          expect(points[0]?.tick).toBe(0);
        },
      ),
      { seed: 15, numRuns: draws(200) },
    );
  });

  it('bears 200,000 notes with as many base targets', () => {
    const onsets = line(
      even(200_000, (i) => ({ velocity: 40 + ((i * 37) % 60), held: i % 9 === 0 ? 100 : 400 })),
    );
    const base = onsets.map(({ tick }, i) => ({ at: tick, level: 2 + (i % 5) }));
    expect(shapeTargets(onsets, { ...defaultShape, base }).length).toBeGreaterThan(200_000);
  });
});
