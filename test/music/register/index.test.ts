import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SoundingNote } from '../../../src/music/harmony/types.js';
import { registerOf } from '../../../src/music/register/index.js';
import { draws } from '../../support/draws.js';
import { clock, note } from '../voicing/support.js';

/** A note to a bar. */
const line = (part: number, pitches: readonly number[], velocity = 80): readonly SoundingNote[] =>
  pitches.map((pitch, bar) => note(pitch, bar * 2000, (bar + 1) * 2000, part, velocity));
const repeated = (pitch: number, bars: number) => Array.from({ length: bars }, () => pitch);

describe('registerOf', () => {
  it('tells where a part lies', () => {
    const notes = [note(60, 0, 3000), note(72, 3000, 4000), note(84, 4000, 5000)];
    const [oboe] = registerOf(notes, [{ name: 'Oboe' }], clock);
    expect(oboe).toEqual({
      part: 0,
      name: 'Oboe',
      instrument: 'oboe',
      role: 'melody',
      notes: 3,
      lowest: 60,
      highest: 84,
      mean: expect.closeTo(67.2, 10), // (60 · 3 + 72 + 84) / 5
      range: { low: 58, high: 93 },
      thirds: { dark: 0.6, middle: 0.2, bright: 0.2 },
      outsideInstrument: null,
      outsideRecording: null,
      observations: [],
    });
  });

  it('tells notes outside the instrument and outside the recording apart, with bars', () => {
    const notes = line(0, [57, 58, 94, 95, 60]);
    const [oboe] = registerOf(notes, [{ name: 'Oboe', range: { low: 60, high: 94 } }], clock);
    expect(oboe?.outsideInstrument).toEqual({
      notes: 3,
      range: { low: 58, high: 93 },
      lowest: 57,
      highest: 95,
      bars: [
        { from: 1, to: 1 },
        { from: 3, to: 4 },
      ],
    });
    expect(oboe?.outsideRecording).toMatchObject({
      notes: 3,
      bars: [
        { from: 1, to: 2 },
        { from: 4, to: 4 },
      ],
    });
  });

  it('goes by the program where the name says nothing, and by the map where neither tells', () => {
    const notes = [...line(0, [60]), ...line(1, [60]), ...line(2, [60])];
    const found = registerOf(
      notes,
      [{ name: '', program: 73 }, { name: 'Pad', range: { low: 24, high: 95 } }, { name: 'Pad' }],
      clock,
    );
    expect(found.map(({ instrument, range }) => [instrument, range])).toEqual([
      ['flute', { low: 60, high: 98 }],
      [null, { low: 24, high: 95 }],
      [null, null],
    ]);
    expect(found[2]?.thirds).toBeNull();
  });

  it('leaves out parts without notes', () => {
    expect(registerOf(line(1, [60]), [{ name: 'a' }, { name: 'b' }], clock).map(({ part }) => part)).toEqual([
      1,
    ]);
    expect(registerOf([], [{ name: 'a' }], clock)).toEqual([]);
  });

  it('observes a melody that lies low over another part', () => {
    // B♭3–A4 is the dark third of the oboe; the horn plays a third below in bars 1–3
    const notes = [
      ...line(0, [62, 64, 65, 76, 77]),
      ...line(1, [58, 60, 62, 60, 62]),
      ...line(2, repeated(36, 5)),
    ];
    const found = registerOf(notes, [{ name: 'Oboe' }, { name: 'Horn' }, { name: 'Cello' }], clock);
    expect(found.map(({ role }) => role)).toEqual(['melody', 'harmony', 'bass']);
    expect(found[0]?.observations).toEqual([
      { what: 'low melody', bars: { from: 1, to: 3 }, lowest: 62, highest: 65, under: 1 },
    ]);
  });

  it('observes none where the low melody has nothing close beneath it, or what there is is softer', () => {
    const parts = [{ name: 'Oboe' }, { name: 'Horn' }];
    const oboe = line(0, [62, 64, 65]);
    expect(registerOf([...oboe, ...line(1, [48, 48, 48])], parts, clock)[0]?.observations).toEqual([]);
    expect(registerOf([...oboe, ...line(1, [58, 60, 62], 60)], parts, clock)[0]?.observations).toEqual([]);
  });

  it('observes a bass that lies high, and a line that stays high for long', () => {
    // bright thirds: cello C♯5 (69) and above, violin F♯6 (89) and above
    const notes = [...line(0, repeated(90, 5)), ...line(1, [70, 71, 40, 40, 40])];
    const [violin, cello] = registerOf(notes, [{ name: 'Violin' }, { name: 'Cello' }], clock);
    expect(violin?.observations).toEqual([
      { what: 'high line', bars: { from: 1, to: 5 }, lowest: 90, highest: 90 },
    ]);
    expect(cello?.observations).toEqual([
      { what: 'high bass', bars: { from: 1, to: 2 }, lowest: 70, highest: 71 },
    ]);
    expect(registerOf(line(0, repeated(90, 3)), [{ name: 'Violin' }], clock)[0]?.observations).toEqual([]);
  });

  it('shares sounding time out wholly, and is the same for notes in any order', () => {
    const notes = fc.array(
      fc
        .tuple(
          fc.integer({ min: 20, max: 110 }),
          fc.integer({ min: 0, max: 30 }),
          fc.integer({ min: 1, max: 8 }),
          fc.integer({ min: 0, max: 1 }),
        )
        .map(([pitch, at, length, part]) => note(pitch, at * 500, (at + length) * 500, part)),
      { minLength: 1, maxLength: 30 },
    );
    const parts = [{ name: 'Flute' }, { name: 'Cello', range: { low: 30, high: 90 } }];
    fc.assert(
      fc.property(notes, (all) => {
        const found = registerOf(all, parts, clock);
        for (const { thirds, lowest, highest, mean } of found) {
          expect((thirds?.dark ?? 0) + (thirds?.middle ?? 0) + (thirds?.bright ?? 0)).toBeCloseTo(1, 10);
          expect(mean).toBeGreaterThanOrEqual(lowest - 1e-9);
          expect(mean).toBeLessThanOrEqual(highest + 1e-9);
        }
        const summary = (of: typeof found) =>
          of.map(({ part, role, lowest, highest, thirds }) => [
            part,
            role,
            lowest,
            highest,
            Math.round((thirds?.dark ?? 0) * 1e6),
          ]);
        expect(summary(registerOf([...all].reverse(), parts, clock))).toEqual(summary(found));
      }),
      { seed: 6, numRuns: draws(200) },
    );
  });

  it('bears 200,000 notes', () => {
    const notes = Array.from({ length: 200_000 }, (_, index) =>
      note(
        40 + ((index * 7) % 50),
        Math.floor(index / 4) * 250,
        Math.floor(index / 4) * 250 + 245,
        index % 20,
      ),
    );
    const parts = Array.from({ length: 20 }, () => ({ name: 'Viola' }));
    expect(registerOf(notes, parts, clock)).toHaveLength(20);
  });
});
