import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import type { SoundingNote } from '../../../src/music/harmony/types.js';
import { draws, some } from '../../support/draws.js';
import { songOf, trackOf } from '../../support/song.js';
import { chorales, unseen } from './chorales.js';
import { beat, chordsOf, clockFor, inOrder, notesOf } from './support.js';

const bpm = 100;
const ms = (length: number) => Math.round((length * beat * bpm) / 60_000);
const clock = clockFor(4, bpm);
const pers = ['found', 'beat', 'bar'] as const;
const borrowed = [
  [48, 55, 64],
  [44, 51, 60],
  [46, 53, 62],
  [48, 55, 64],
];
const told = (notes: readonly SoundingNote[], per: (typeof pers)[number]) =>
  harmonyOf(inOrder(notes), clock, { per }).map(({ tick, pitchClasses, bass, chord, degree, altered }) => {
    return { tick, pitchClasses, bass, chord, degree, altered };
  });

describe('harmonyOf', () => {
  it('tells each chord once, over the beats and bars that it sounds', () => {
    const found = harmonyOf(chordsOf(borrowed, 4), clock, { per: 'found' });
    expect(found.map(({ bar, beat, chord }) => [bar, beat, chord?.name])).toEqual([
      [1, 1, 'C'],
      [2, 1, 'A♭'],
      [3, 1, 'B♭'],
      [4, 1, 'C'],
    ]);
    expect(found.map(({ tick, endTick }) => [tick / beat, endTick / beat])).toEqual([
      [0, 4],
      [4, 8],
      [8, 12],
      [12, 16],
    ]);
    expect(harmonyOf(chordsOf(borrowed, 4), clock, { per: 'beat' })).toHaveLength(16);
    expect(harmonyOf(chordsOf(borrowed, 4), clock, { per: 'bar' }).map(({ chord }) => chord?.name)).toEqual([
      'C',
      'A♭',
      'B♭',
      'C',
    ]);
  });

  it('holds for played timing: every note up to 25 ms early or late', () => {
    const score = fc.constantFrom(
      chordsOf(borrowed, 2),
      chordsOf(borrowed, 1),
      ...[...chorales, ...unseen].map(notesOf),
    );
    fc.assert(
      fc.property(score, fc.infiniteStream(fc.integer({ min: -25, max: 25 })), (notes, shifts) => {
        const moved = notes.map((note): SoundingNote => {
          const by = ms(shifts.next().value ?? 0);
          return { ...note, tick: Math.max(0, note.tick + by), endTick: Math.max(1, note.endTick + by) };
        });
        for (const per of pers) expect(told(moved, per)).toEqual(told(notes, per));
      }),
      { numRuns: draws(40) },
    );
  });

  it('holds for chords that are rolled by 20–40 ms, and for releases that drag by 50 ms', () => {
    const notes = chordsOf(borrowed, 2);
    for (const roll of [20, 30, 40]) {
      const played = notes.map((note) => {
        return { ...note, tick: note.tick + ms((note.part * roll) / 2), endTick: note.endTick + ms(50) };
      });
      for (const per of pers) expect(told(played, per)).toEqual(told(notes, per));
    }
  });

  it('takes a note 25 ms before a bar line into the bar', () => {
    const early = chordsOf(borrowed, 4).map((note) => ({
      ...note,
      tick: Math.max(0, note.tick - ms(25)),
      endTick: note.endTick - ms(25),
    }));
    expect(
      harmonyOf(early, clock, { per: 'bar' }).map(({ bar, pitchClasses }) => [bar, pitchClasses]),
    ).toEqual([
      [1, [0, 4, 7]],
      [2, [0, 3, 8]],
      [3, [2, 5, 10]],
      [4, [0, 4, 7]],
    ]);
  });

  it('goes with a transposition, and degrees stay', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...chorales, ...unseen),
        fc.integer({ min: -11, max: 11 }),
        fc.constantFrom(...pers),
        (chorale, by, per) => {
          const notes = notesOf(chorale);
          const before = harmonyOf(notes, clock, { per });
          const after = harmonyOf(
            notes.map((note) => ({ ...note, pitch: note.pitch + by })),
            clock,
            { per },
          );
          expect(after.map(({ degree, altered }) => [degree, altered])).toEqual(
            before.map(({ degree, altered }) => [degree, altered]),
          );
          expect(after.map(({ chord }) => chord && [chord.root, chord.intervals, chord.inversion])).toEqual(
            before.map(
              ({ chord }) => chord && [(chord.root + by + 12) % 12, chord.intervals, chord.inversion],
            ),
          );
        },
      ),
      { numRuns: draws(60) },
    );
  });

  it('reads broken chords with a melody over them by the bar (pattern of D. Alberti, worked by hand)', () => {
    const bars = [
      [48, 55, 52, 55],
      [47, 55, 50, 55],
      [48, 57, 53, 57],
      [47, 55, 50, 53],
      [48, 55, 52, 55],
    ];
    const accompaniment = bars.flatMap((bar, index) =>
      [...bar, ...bar].map((pitch, at): SoundingNote => {
        const tick = (index * 8 + at) * (beat / 2);
        return { tick, endTick: tick + beat / 2, pitch, velocity: 80, part: 0 };
      }),
    );
    const found = harmonyOf(accompaniment, clock, { per: 'found' });
    expect(found.map(({ bar, chord }) => [bar, chord?.name])).toEqual([
      [1, 'C'],
      [2, 'G/B'],
      [3, 'F/C'],
      [4, 'G7/B'],
      [5, 'C'],
    ]);
  });

  it('follows a bass that moves on, though one chord has all tones: C and A minor are not C6', () => {
    // The left hand holds a chord a bar, the right has quarters; worked by hand.
    const bars = [
      [
        [50, 57, 65],
        [74, 76, 77, 81],
      ],
      [
        [48, 55, 64],
        [72, 74, 76, 79],
      ],
      [
        [45, 52, 60],
        [72, 74, 76, 79],
      ],
      [
        [53, 57, 60],
        [81, 79, 77, 76],
      ],
      [
        [50, 53, 57],
        [74, 74, 74, 74],
      ],
    ];
    const notes = bars.flatMap(([held = [], melody = []], bar) => [
      ...held.map((pitch): SoundingNote => {
        return { tick: bar * 4 * beat, endTick: (bar + 1) * 4 * beat - 60, pitch, velocity: 64, part: 0 };
      }),
      ...melody.map((pitch, at): SoundingNote => {
        const tick = (bar * 4 + at) * beat;
        return { tick, endTick: tick + beat - 10, pitch, velocity: 80, part: 0 };
      }),
    ]);
    const found = harmonyOf(inOrder(notes), clock, { per: 'found' });
    expect(found.map(({ bar, beat: at, chord }) => [bar, at, chord?.root])).toEqual([
      [1, 1, 2],
      [2, 1, 0],
      [3, 1, 9],
      [4, 1, 5],
      [5, 1, 2],
    ]);
  });

  it('does not join chords over a long silence, and has no entry for silence', () => {
    const [first = []] = borrowed;
    const apart = [0, 8 * beat].flatMap((from) =>
      chordsOf([first]).map((note) => ({ ...note, tick: note.tick + from, endTick: note.endTick + from })),
    );
    for (const per of pers) {
      const found = harmonyOf(apart, clock, { per });
      expect(found.every(({ tick }) => tick < 4 * beat || tick >= 8 * beat)).toBe(true);
    }
    expect(harmonyOf(apart, clock, { per: 'found' })).toHaveLength(2);
    expect(harmonyOf([], clock, { per: 'found' })).toEqual([]);
  });

  it('decides ambiguous chords by what follows: ii6/5 before V, the leading tone of a diminished seventh', () => {
    const names = (chords: readonly (readonly number[])[]) =>
      harmonyOf(chordsOf(chords), clock, { per: 'found' }).map(({ chord }) => chord?.name);
    expect(
      names([
        [53, 57, 60, 62],
        [55, 59, 62, 65],
        [48, 55, 64],
      ]),
    ).toEqual(['Dm7/F', 'G7', 'C']);
    expect(
      names([
        [53, 57, 60, 62],
        [48, 55, 64],
      ]),
    ).toEqual(['F6', 'C']);
    expect(
      names([
        [48, 55, 63],
        [50, 53, 56, 59],
        [48, 55, 63],
      ]),
    ).toEqual(['Cm', 'Bdim7/D', 'Cm']);
  });

  it('works without bars, by half seconds', () => {
    const smpte = clockOf(
      songOf([trackOf([{ tick: 0, end: 1, pitch: 60 }])], {
        smpte: { framesPerSecond: 25, ticksPerFrame: 40 },
      }),
      1,
    );
    const notes = borrowed.flatMap((pitches, index) =>
      pitches.map((pitch, part): SoundingNote => {
        return { tick: index * 2000, endTick: (index + 1) * 2000, pitch, velocity: 80, part };
      }),
    );
    for (const per of ['found', 'bar'] as const) {
      const found = harmonyOf(notes, smpte, { per });
      expect(found.map(({ tick, bar, beat, chord }) => [tick, bar, beat, chord?.name])).toEqual([
        [0, null, null, 'C'],
        [2000, null, null, 'A♭'],
        [4000, null, null, 'B♭'],
        [6000, null, null, 'C'],
      ]);
    }
  });

  it('bears crowds, notes held over everything, one held for hours', () => {
    const held = Array.from({ length: draws(4000) }, (_, at): SoundingNote => {
      return {
        tick: at * 240,
        endTick: (at + draws(4000)) * 240,
        pitch: 30 + (at % 60),
        velocity: 80,
        part: 0,
      };
    });
    const crowd = Array.from({ length: draws(100_000) }, (_, at): SoundingNote => {
      return { tick: 0, endTick: 480, pitch: at % 128, velocity: 80, part: 0 };
    });
    const hours: SoundingNote[] = [{ tick: 0, endTick: 2e9, pitch: 60, velocity: 80, part: 0 }];
    for (const notes of some([held, crowd, hours]))
      for (const per of notes === held ? pers : pers.slice(0, 1))
        expect(harmonyOf(notes, clock, { per }).length).toBeGreaterThan(0);
  });
});
