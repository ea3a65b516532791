import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { voicingOf } from '../../../src/music/voicing/index.js';
import { draws } from '../../support/draws.js';
import { bars, chord, clock, note } from './support.js';

const pitchesOf = (voicings: ReturnType<typeof voicingOf>) =>
  voicings.map(({ pitches }) => pitches.map(({ pitch }) => pitch));

describe('voicingOf', () => {
  it('lays out the chord of each stretch', () => {
    const [first, second, ...more] = voicingOf(
      [...chord([48, 64, 67, 72]), ...chord([41, 57, 65, 72], 2000)],
      bars(3),
      clock,
    );
    expect(more).toEqual([]);
    expect(first).toEqual({
      tick: 0,
      endTick: 2000,
      bar: 1,
      beat: 1,
      pitches: [48, 64, 67, 72].map((pitch, part) => ({ pitch, parts: [part] })),
      spacing: [16, 3, 5],
      kind: 'close',
      built: 'mixed',
      bare: null,
      doubled: [
        {
          pitchClass: 0,
          tone: null,
          leading: false,
          by: 'octaves',
          times: 2,
          pitches: [48, 72],
          parts: [0, 3],
        },
      ],
      crossings: [],
      gaps: [],
      mud: [],
    });
    expect(second).toMatchObject({ bar: 2, spacing: [16, 8, 7], kind: 'open' });
  });

  it('tells which parts sound a pitch', () => {
    const notes = [note(60, 0, 2000, 2), note(60, 0, 2000, 0), note(64, 0, 2000, 1), note(67, 0, 2000, 1)];
    expect(voicingOf(notes, bars(1), clock)[0]?.pitches).toEqual([
      { pitch: 60, parts: [0, 2] },
      { pitch: 64, parts: [1] },
      { pitch: 67, parts: [1] },
    ]);
  });

  it('has no voicing of a line, of two notes in thirds or sixths, and of silence', () => {
    expect(voicingOf([note(60, 0, 500), note(64, 480, 1000), note(67, 980)], bars(2), clock)).toEqual([]);
    expect(voicingOf(chord([60, 64]), bars(1), clock)).toEqual([]);
    expect(voicingOf(chord([60, 68]), bars(1), clock)).toEqual([]);
    expect(voicingOf([], bars(1), clock)).toEqual([]);
    expect(voicingOf(chord([60, 64, 67]), [], clock)).toEqual([]);
  });

  it('has one of two notes that are a fifth, a fourth or an octave apart', () => {
    const bare = (pitches: readonly number[]) => voicingOf(chord(pitches), bars(1), clock)[0];
    expect(bare([48, 55])).toMatchObject({ bare: 'fifths', kind: null, spacing: [7] });
    expect(bare([48, 53])).toMatchObject({ bare: 'fourths', kind: null });
    expect(bare([48, 72])).toMatchObject({ bare: 'octaves', kind: null });
  });

  it('takes a rolled chord, and one whose notes are released one after another, for what it is', () => {
    const rolled = [48, 55, 64, 72].map((pitch, part) =>
      note(pitch, part * 60, 1600 + ((part * 7) % 4) * 120, part),
    );
    expect(pitchesOf(voicingOf(rolled, bars(1), clock))).toEqual([[48, 55, 64, 72]]);
  });

  it('hears notes that drag into the next chord as no part of it', () => {
    const notes = [...chord([48, 64, 67], 0, 2180), ...chord([53, 65, 69], 1980, 3950)];
    expect(pitchesOf(voicingOf(notes, bars(2), clock))).toEqual([
      [48, 64, 67],
      [53, 65, 69],
    ]);
  });

  it('takes short chords over a long note, not the note alone', () => {
    const notes = [note(36, 0, 2000, 1), ...chord([60, 64, 67], 0, 150), ...chord([60, 64, 67], 1000, 1150)];
    expect(pitchesOf(voicingOf(notes, bars(1), clock))).toEqual([[36, 60, 64, 67]]);
  });

  it('keeps its kind and spacing when all is moved by an octave', () => {
    const some = fc.uniqueArray(fc.integer({ min: 30, max: 80 }), { minLength: 3, maxLength: 9 });
    fc.assert(
      fc.property(some, fc.constantFrom(-24, -12, 12, 24), (heights, by) => {
        const pitches = [...heights].sort((a, b) => a - b);
        const [here] = voicingOf(chord(pitches), bars(1), clock);
        const [there] = voicingOf(chord(pitches.map((pitch) => pitch + by)), bars(1), clock);
        const { spacing, kind, built, bare } = here ?? {};
        expect(there).toMatchObject({ spacing, kind, built, bare });
        expect(there?.gaps.map(({ semitones }) => semitones)).toEqual(
          here?.gaps.map(({ semitones }) => semitones),
        );
        expect(spacing?.reduce((sum, semitones) => sum + semitones, 0)).toBe(
          (pitches.at(-1) ?? 0) - (pitches[0] ?? 0),
        );
      }),
      { seed: 6, numRuns: draws(200) },
    );
  });

  it('is the same when players are up to 25 ms early or late', () => {
    const heights = fc.uniqueArray(fc.integer({ min: 36, max: 84 }), { minLength: 3, maxLength: 8 });
    const strays = fc.array(fc.integer({ min: -25, max: 25 }), { minLength: 16, maxLength: 16 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(heights, strays), { minLength: 1, maxLength: 6 }),
        fc.constantFrom(500, 1000, 2000),
        (chords, length) => {
          const stretches = chords.map((_, index) => {
            return { tick: index * length, endTick: (index + 1) * length, bar: index + 1, beat: 1 };
          });
          const exact = chords.map(([pitches], index) =>
            chord(pitches, index * length, (index + 1) * length),
          );
          const strayed = exact.map((notes, index) =>
            notes.map((one, at) => {
              const [early, late] = [chords[index]?.[1][at * 2] ?? 0, chords[index]?.[1][at * 2 + 1] ?? 0];
              return { ...one, tick: Math.max(0, one.tick + early), endTick: one.endTick + late };
            }),
          );
          // where a part lies on average moves with the lengths, and with it which parts cross
          const layout = (all: readonly (readonly (typeof exact)[number][number][])[]) =>
            voicingOf(all.flat(), stretches, clock).map(({ crossings, ...voicing }) => voicing);
          expect(layout(strayed)).toEqual(layout(exact));
        },
      ),
      { seed: 6, numRuns: draws(200) },
    );
  });

  it('bears 200,000 notes, and a crowd at one place', () => {
    const notes = Array.from({ length: 50_000 }, (_, index) =>
      chord([40 + (index % 9), 55, 60 + (index % 5), 72], index * 250, index * 250 + 240 + (index % 20)),
    ).flat();
    const crowd = Array.from({ length: 60_000 }, (_, index) => note(60 + (index % 3), 0, 2000, index % 8));
    expect(voicingOf(notes, bars(6250), clock)).toHaveLength(6250);
    expect(voicingOf(crowd, bars(1), clock)).toHaveLength(1);
  });
});
