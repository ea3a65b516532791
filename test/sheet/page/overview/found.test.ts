import { expect, it } from 'vitest';
import { overviewOf } from '../../../../src/sheet/page/overview/found.js';
import { clockWith } from '../../notate/scores.js';
import { sheetNote, sheetPart } from '../support.js';

/** 4/4 at 480 ticks a quarter and 120 quarters a minute: 1920 ticks, 2 s a bar. */
const clock = clockWith();
const bar = 1920;
const bars = (count: number) =>
  Array.from({ length: count }, (_, at) => ({
    bar: at + 1,
    bars: 1,
    tick: at * bar,
    endTick: (at + 1) * bar,
    system: at >> 2,
  }));
const note = (from: number, to: number, more = {}) => ({
  ...sheetNote('a', from * bar, more),
  endTick: to * bar,
});
const levels = (found: ReturnType<typeof overviewOf>, part = 0) =>
  found.rows[part]?.map((cell) => cell && Math.round(cell.level));

it('a part plays in the bars that its notes belong to, and in those that they are held through', () => {
  // 0.02 of a bar are 40 ms: a release that drags. The last is played early, and belongs to bar 7.
  const early = { ...note(5.99, 6.5), place: { bar: 7, beat: 1 } };
  const notes = [note(0, 2.5), note(4, 5.02), early];
  const found = overviewOf({ parts: [sheetPart({ notes })], balance: [], clock }, bars(8));
  expect(found.rows[0]?.map((cell) => cell !== undefined)).toEqual([
    ...[true, true, true, false],
    ...[true, false, true, false],
  ]);
});

it('is as loud as its loudest note: by velocity where it is struck, else by the curve', () => {
  // Identity levels: 90 is f (5), 45 is p (2), 15 is ppp (0).
  const curve = { controller: 1, points: [{ tick: 0, value: 15 }], marks: [] };
  const struck = [
    note(0, 0.5, { isStruck: true, velocity: 45 }),
    note(0.5, 1, { isStruck: true, velocity: 90 }),
  ];
  const part = sheetPart({ curve, notes: [...struck, note(1, 2, { velocity: 90 })] });
  const bare = sheetPart({ notes: [note(1, 2, { velocity: 90 })] });
  const found = overviewOf({ parts: [part, bare], balance: [], clock }, bars(2));
  expect(levels(found, 0)).toEqual([5, 0]);
  expect(levels(found, 1)).toEqual([undefined, 5]);
});

it('what the balance says of a bar counts, with the tune', () => {
  const section = { name: 'Horns', kind: 'horn' as const, players: 1, level: 6, loudness: -3 };
  const said = (at: number, role: 'melody' | 'harmony') => ({
    bar: at,
    phrase: { from: at, to: at },
    sections: [{ ...section, role }],
    covered: [],
  });
  const parts = [sheetPart({ notes: [note(0, 3)] })];
  const found = overviewOf({ parts, balance: [said(1, 'melody'), said(2, 'harmony')], clock }, bars(3));
  expect(found.rows[0]?.map((cell) => cell?.hasTune)).toEqual([true, false, false]);
  expect(levels(found)).toEqual([6, 6, 4]);
});

it('many bars stand in columns together, however long notes are held', () => {
  const whole = [{ bar: 1, bars: 1_000_000, tick: 0, endTick: bar * 1_000_000, system: 0 }];
  const parts = [sheetPart({ notes: [note(0, 999_999)] })];
  const { rows, each, bars: count } = overviewOf({ parts, balance: [], clock }, whole);
  expect(count).toBe(1_000_000);
  expect(rows[0]).toHaveLength(Math.ceil(count / each));
  expect(rows[0]?.length).toBeLessThanOrEqual(120);
  expect(rows[0]?.every((cell) => cell !== undefined)).toBe(true);
});
