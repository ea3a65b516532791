import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineOfNotes, msTicks, noteAt } from '../../support/line.js';
import { tempoAt } from '../../support/song.js';

describe('measuring notes', () => {
  it('holds a sixteenth 125 ms at 120 bpm and 250 ms at 60 bpm', () => {
    const sixteenth = [{ tick: 960, end: 1080, pitch: 60 }];
    expect(noteAt(lineOfNotes(sixteenth), 0).held).toEqual({ ms: 125, ticks: 120 });
    expect(noteAt(lineOfNotes(sixteenth, [tempoAt(0, 60)]), 0).held).toEqual({ ms: 250, ticks: 120 });
  });

  it('adds up the parts of a note across tempo changes', () => {
    // A quarter at 120 bpm, then a quarter at 60, then one at 240: 500 + 1000 + 250 ms.
    const line = lineOfNotes(
      [{ tick: 0, end: 1440, pitch: 60 }],
      [tempoAt(0, 120), tempoAt(480, 60), tempoAt(960, 240)],
    );
    expect(noteAt(line, 0).held).toEqual({ ms: 1750, ticks: 1440 });
  });

  it('measures pace from onset to onset, and the last note by its held time', () => {
    const line = lineOfNotes(
      [
        { tick: 0, end: 50, pitch: 60 },
        { tick: 200, end: 320, pitch: 62 },
      ],
      [],
      msTicks,
    );
    expect(line.notes.map(({ pace }) => pace.ms)).toEqual([200, 120]);
  });

  it('measures rests as silence: endless at both ends, 0 where notes touch or overlap', () => {
    const notes = [
      { tick: 0, end: 100, pitch: 60 },
      { tick: 150, end: 300, pitch: 62 },
      { tick: 300, end: 500, pitch: 64 },
      { tick: 400, end: 600, pitch: 65 },
    ];
    const line = lineOfNotes(notes, [], msTicks);
    expect(line.notes.map(({ restBefore }) => restBefore.ms)).toEqual([Infinity, 50, 0, 0]);
    expect(line.notes.map(({ restAfter }) => restAfter.ms)).toEqual([50, 0, 0, Infinity]);
  });

  it('hears no silence while an earlier note still sounds', () => {
    const pedal = [
      { tick: 0, end: 1000, pitch: 40 },
      { tick: 100, end: 150, pitch: 60 },
      { tick: 400, end: 450, pitch: 62 },
    ];
    expect(lineOfNotes(pedal, [], msTicks).notes.map(({ restBefore }) => restBefore.ms)).toEqual([
      Infinity,
      0,
      0,
    ]);
  });

  it('counts a release up to 10 ms before the next onset as overlapping it', () => {
    const overlapsAt = (end: number) =>
      noteAt(
        lineOfNotes(
          [
            { tick: 0, end, pitch: 60 },
            { tick: 500, end: 900, pitch: 62 },
          ],
          [],
          msTicks,
        ),
        0,
      ).overlapsNext;
    expect([489, 490, 500, 700].map(overlapsAt)).toEqual([false, true, true, true]);
  });

  it('measures leaps and repeats from the top note of the previous onset', () => {
    const notes = [
      { tick: 0, end: 100, pitch: 60 },
      { tick: 5, end: 100, pitch: 67 },
      { tick: 500, end: 600, pitch: 67 },
      { tick: 900, end: 950, pitch: 55 },
    ];
    const line = lineOfNotes(notes, [], msTicks);
    expect(line.notes.map(({ leap }) => leap)).toEqual([null, null, 0, 12]);
    expect(line.notes.map(({ repeatsPrevious }) => repeatsPrevious)).toEqual([false, false, true, false]);
    expect(line.notes.map(({ chord }) => chord)).toEqual([2, 2, 1, 1]);
  });

  it('agrees with itself: overlaps-previous is the previous overlaps-next in a single line', () => {
    const steps = fc.array(fc.tuple(fc.integer({ min: 81, max: 900 }), fc.integer({ min: 0, max: 1200 })), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(steps, (list) => {
        let tick = 0;
        const notes = list.map(([step, length], index) => {
          tick += step;
          return { tick, end: tick + length, pitch: 40 + index };
        });
        const line = lineOfNotes(notes, [], msTicks);
        for (let index = 1; index < line.notes.length; index++) {
          const [before, note] = [noteAt(line, index - 1), noteAt(line, index)];
          expect(note.overlapsPrevious).toBe(before.overlapsNext);
          expect(before.pace.ms).toBeCloseTo(note.tick - before.tick, 6);
          if (!before.overlapsNext)
            expect(note.restBefore.ms).toBeLessThanOrEqual(note.tick - before.endTick);
        }
      }),
      { seed: 12, numRuns: 60 },
    );
  });
});
