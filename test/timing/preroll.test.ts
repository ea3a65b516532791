import { expect, it } from 'vitest';
import type { Clock } from '../../src/midi/clock/clock.js';
import type { Duration } from '../../src/midi/duration.js';
import { prerollBars as barsMissing } from '../../src/timing/preroll.js';
import { frameClock, plainClock } from './clock.js';
import { compensated, lateNotes } from './late-notes.js';

const clock = plainClock(480); // a bar is 2 s
const late = (onset: number, ms: number) => ({ onset, speaksAfter: { unit: 'ms', ms } satisfies Duration });

const prerollBars = (notes: readonly ReturnType<typeof late>[], at: Clock) =>
  barsMissing(
    lateNotes(
      notes.map((note) => ({ ...note, release: note.onset + 1, pitch: 60, channel: 0, struck: note.onset })),
    ),
    at,
  );

it('counts the bars that are missing before the music', () => {
  expect(prerollBars([late(0, 0), late(480, 500)], clock)).toBe(0);
  expect(prerollBars([late(0, 90)], clock)).toBe(1);
  expect(prerollBars([late(0, 2000)], clock)).toBe(1);
  expect(prerollBars([late(960, 90), late(0, 2100)], clock)).toBe(2);
  expect(prerollBars([late(0, 1600)], plainClock(480, [[0, 120]], 3))).toBe(2);
  expect(prerollBars([], clock)).toBe(0);
});

it('has no answer where there are no bars', () => {
  expect(prerollBars([late(0, 90)], frameClock)).toBeNull();
});

it('is enough: so many bars later nothing is clamped, and one fewer is not', () => {
  const notes = [late(0, 4100), late(100, 40)];
  const bars = prerollBars(notes, clock) ?? 0;
  const clamps = (count: number) =>
    compensated(
      notes.map(({ onset, speaksAfter }, channel) => {
        const moved = onset + count * 1920;
        return { onset: moved, release: moved + 50, pitch: 60, channel, speaksAfter, struck: channel };
      }),
      clock,
    ).clamped.length;
  expect(clamps(bars)).toBe(0);
  expect(clamps(bars - 1)).toBe(1);
});
