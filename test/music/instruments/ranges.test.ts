import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { instruments } from '../../../src/music/instruments/ranges.js';

/** A written range, and the interval by which it sounds higher or lower. */
type Row = readonly [written: string, sounds?: string];

/**
 * Orchestra Library, "Ranges of Orchestral Instruments" (orchestralibrary.com/reftables/rang.html; C4 is middle C), the
 * harp of compositionteaching.com/instrument-ranges. Written from printed notes and transpositions, which a library adds.
 */
const handbook: Readonly<Partial<Record<keyof typeof instruments, Row>>> = {
  piccolo: ['D4 C7', '8P'],
  flute: ['C4 D7'],
  'alto flute': ['C4 C7', '-4P'],
  oboe: ['Bb3 A6'],
  'English horn': ['B3 G6', '-5P'],
  clarinet: ['E3 C7', '-2M'],
  'bass clarinet': ['C3 G6', '-9M'],
  bassoon: ['Bb1 Eb5'],
  contrabassoon: ['Bb1 Bb4', '-8P'],
  horn: ['F#2 C6', '-5P'],
  trumpet: ['F#3 D6', '-2M'],
  trombone: ['E2 F5'],
  tuba: ['D1 F4'],
  timpani: ['D2 C4'],
  harp: ['Cb1 G#7'],
  violin: ['G3 A7'],
  viola: ['C3 E6'],
  cello: ['C2 C6'],
  'double bass': ['C2 C5', '-8P'],
};

/** From memory. */
const fromMemory: Readonly<Partial<Record<keyof typeof instruments, Row>>> = {
  'bass trombone': ['Bb1 Bb4'],
  soprano: ['C4 C6'],
  alto: ['F3 F5'],
  tenor: ['C3 C5'],
  baritone: ['G2 G4'],
  bass: ['E2 E4'],
};

describe('ranges of instruments', () => {
  it('are those of the handbook, as they sound', () => {
    const rows = Object.entries({ ...handbook, ...fromMemory });
    const sounding = rows.map(([name, [written, by = '1P']]) => {
      const [low, high] = written.split(' ').map((pitch) => Note.midi(Note.transpose(pitch, by)));
      return [name, { low, high }];
    });
    expect(Object.keys(instruments).sort()).toEqual(rows.map(([name]) => name).sort());
    expect(instruments).toMatchObject(Object.fromEntries(sounding));
  });

  it('begin at the lowest string (tuning in fifths from C and G; common knowledge)', () => {
    expect([instruments.violin.low, instruments.viola.low, instruments.cello.low]).toEqual(
      ['G3', 'C3', 'C2'].map((pitch) => Note.midi(pitch)),
    );
  });

  it('have the characters of four woodwinds (Rimsky-Korsakov, Principles of Orchestration, chapter I)', () => {
    const { flute, oboe, clarinet, bassoon } = instruments;
    expect([flute, oboe, clarinet, bassoon].map(({ character }) => Object.values(character))).toEqual([
      ['dull, cold', 'brilliant'],
      ['wild', 'hard, dry'],
      ['ringing, threatening', 'piercing'],
      ['sinister', 'tense'],
    ]);
  });
});
