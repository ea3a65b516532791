import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { barsIn, WrongFromBars } from '../../src/prove/dependents.js';
import { draws } from '../support/draws.js';
import { cc, fileOf, library, note, off, on, proofOf, tap } from './events.js';

/** Bars of 2000 ticks: bar 1 begins at 0, bar 2 at 2000. */
const clock = clockOf(fileOf(note(0, 1, 60)), 1);

const barOf = (tick: number) => clock.position(tick)?.bar ?? 0;
const wrongFromBars = (notes: readonly { readonly tick: number; readonly since: number }[]) => {
  const wrong = new WrongFromBars();
  for (const { tick, since } of notes) wrong.add(barOf(since), barOf(tick));
  return wrong.ranges();
};

describe('wrongFromBars', () => {
  it('counts a note from the bar behind its switch up to its own', () => {
    expect(wrongFromBars([{ tick: 7000, since: 1900 }])).toEqual([{ from: 2, to: 4, wrongNotes: 1 }]);
  });

  it('counts a switch on the bar line itself as heard, and one just before it as missed', () => {
    expect(wrongFromBars([{ tick: 2000, since: 2000 }])).toEqual([]);
    expect(wrongFromBars([{ tick: 2000, since: 1999 }])).toEqual([{ from: 2, to: 2, wrongNotes: 1 }]);
  });

  it('joins bars of the same count, also over many empty bars', () => {
    const notes = [
      { tick: 2_000_000_100, since: 100 },
      { tick: 2_000_000_200, since: 100 },
    ];
    expect(wrongFromBars(notes)).toEqual([{ from: 2, to: 1_000_001, wrongNotes: 2 }]);
    expect(barsIn(wrongFromBars(notes))).toBe(1_000_000);
  });

  it('is what counting bar by bar gives', () => {
    const dependent = fc
      .tuple(fc.nat(20_000), fc.nat(20_000))
      .map(([a, b]) => ({ tick: Math.max(a, b), since: Math.min(a, b) }));
    fc.assert(
      fc.property(fc.array(dependent, { maxLength: 30 }), (notes) => {
        const ranges = wrongFromBars(notes);
        for (let bar = 1; bar <= 12; bar++) {
          const line = (bar - 1) * 2000;
          const wrong = notes.filter(({ tick, since }) => since < line && tick >= line).length;
          expect(ranges.find(({ from, to }) => from <= bar && bar <= to)?.wrongNotes ?? 0).toBe(wrong);
        }
      }),
      { seed: 11, numRuns: draws(200) },
    );
  });
});

describe('playback from a bar', () => {
  const music = [
    ...note(500, 600, 60),
    ...note(2500, 2600, 62),
    ...note(4500, 4600, 64),
    ...note(6500, 6600, 65),
  ];
  const wrongFrom = (
    map: Parameters<typeof proofOf>[0]['map'],
    articulations: readonly string[],
    output: Parameters<typeof proofOf>[0]['output'],
  ) => {
    const meant = articulations.map(
      (name, index) => [500 + 2000 * index, [60, 62, 64, 65][index] ?? 0, name] as const,
    );
    const proof = proofOf({ map, meant, input: music, output });
    expect(proof.violations).toEqual([]);
    return { bars: proof.parts[0]?.bars, wrongFrom: proof.parts[0]?.wrongFrom };
  };

  it('misses latched keys until the next is struck', () => {
    const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
    const output = [...tap(480, 0), ...tap(6480, 1), ...music];
    expect(wrongFrom(map, ['one', 'one', 'one', 'two'], output)).toEqual({
      bars: 4,
      wrongFrom: [
        { from: 2, to: 2, wrongNotes: 2 },
        { from: 3, to: 3, wrongNotes: 1 },
      ],
    });
  });

  it('has controllers and programs, which sequencers send again', () => {
    const map = library([
      'one: {switch: {controller: 20, value: 1}}',
      'two: {switch: {controller: 20, value: 2}}',
    ]);
    expect(wrongFrom(map, ['one', 'one', 'one', 'one'], [cc(480, 20, 1), ...music])).toEqual({
      bars: 4,
      wrongFrom: [],
    });
  });

  it('misses one aspect and has the other', () => {
    const map = library([
      'one: {switch: [{note: 0}, {note: 9, aspect: g}]}',
      'two: {switch: [{note: 1}, {note: 9, aspect: g}]}',
    ]);
    const output = [
      ...tap(480, 0),
      ...tap(480, 9),
      ...tap(2480, 1),
      ...tap(4480, 0),
      ...tap(6480, 1),
      ...music,
    ];
    expect(wrongFrom(map, ['one', 'two', 'one', 'two'], output).wrongFrom).toEqual([
      { from: 2, to: 2, wrongNotes: 3 },
      { from: 3, to: 3, wrongNotes: 2 },
      { from: 4, to: 4, wrongNotes: 1 },
    ]);
  });

  it('misses momentary keys that are down across the bar line; what sounds without keys is right', () => {
    const map = library(['plain: {}', 'one: {switch: {note: 0}}'], '{notes: momentary}');
    const output = [on(480, 0, 100), ...music, off(2600, 0)];
    expect(wrongFrom(map, ['one', 'one', 'plain', 'plain'], output).wrongFrom).toEqual([
      { from: 2, to: 2, wrongNotes: 1 },
    ]);
  });
});
