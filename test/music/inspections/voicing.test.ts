import { describe, expect, it } from 'vitest';
import type { Chord, Key, SoundingNote } from '../../../src/music/harmony/types.js';
import { voicingJson, voicingText } from '../../../src/music/inspections/voicing.js';
import { type VoicedSpan, voicingOf } from '../../../src/music/voicing/index.js';
import { bars, chord, clock, note } from '../voicing/support.js';

const names = ['Bass', 'Tenor', 'Alto', 'Soprano'];
const text = (notes: readonly SoundingNote[], stretches: readonly VoicedSpan[]) =>
  voicingText(voicingOf(notes, stretches, clock), names).split('\n');
const inBars = (...chords: readonly (readonly number[])[]) =>
  text(
    chords.flatMap((pitches, bar) => chord(pitches, bar * 2000)),
    bars(chords.length),
  );

describe('voicings in words', () => {
  it('count close and open position, and say no more of what is usual', () => {
    expect(inBars([48, 64, 67, 72], [48, 55, 64, 72], [48, 53, 58, 63], [48, 60])).toEqual([
      'Voicing of 4 chords: 2 close, 1 open, 1 of two notes; 1 built in fourths and fifths',
    ]);
    expect(voicingText([], [])).toBe('');
  });

  it('tell successive bars as one, by the weightiest', () => {
    expect(inBars([43, 47, 55, 62], [41, 45, 53, 60], [48, 64, 67, 72], [45, 48, 57, 64])).toEqual([
      'Voicing of 4 chords: 1 close, 3 open',
      '  bars 1–2: F2–A2 is a major third that lies low: below B2 it blurs',
      '  bar 4: A2–C3 is a minor third that lies low: below C3 it blurs',
    ]);
  });

  it('give gaps, crossing parts and bare fifths with the reason', () => {
    expect(inBars([48, 55, 64, 83])[1]).toBe(
      '  bar 1: a gap of 19 semitones, E4 to B5: more than an octave between upper voices, which fall apart there',
    );
    const crossed = [
      ...chord([48, 55, 64, 72]),
      ...[48, 69, 62, 74].map((pitch, part) => note(pitch, 2000, 3000, part)),
      ...chord([48, 55, 64, 72], 4000),
    ];
    expect(text(crossed, bars(3)).slice(1)).toEqual([
      '  bar 2: Tenor lies above Alto (A4 over D4), which is usually higher: the ear may take one line for the other',
    ]);
    expect(inBars([48, 55, 60])[1]).toBe(
      '  bar 1: bare fifths (C3–G3–C4): without a third it is neither major nor minor',
    );
  });

  it('tell doubled leading tones, and thirds that outnumber the root', () => {
    const key: Key = { tonic: 0, mode: 'major', name: 'C major', fifths: 0 };
    const on = (root: number): Chord => ({ root, intervals: [0, 4, 7], name: '', inversion: 0 });
    const [one, two] = bars(2);
    const stretches = [
      { ...one, key, chord: on(7) },
      { ...two, key, chord: on(0) },
    ].flatMap(({ tick = 0, endTick = 0, bar = 0, beat = 0, ...more }) => [
      { tick, endTick, bar, beat, ...more },
    ]);
    expect(text([...chord([55, 59, 62, 71]), ...chord([52, 60, 64, 67], 2000)], stretches).slice(1)).toEqual([
      '  bar 1: the leading tone is doubled, B3, B4 (Tenor, Soprano): both want to rise to the tonic',
      '  bar 2: the third sounds 2 times, E3, E4 (Bass, Alto), more often than the root: it stands out',
    ]);
  });

  it('spell pitches as their key has them', () => {
    const key: Key = { tonic: 10, mode: 'major', name: 'B♭ major', fifths: -2 };
    const of = (known: Partial<VoicedSpan>) =>
      text(
        chord([46, 49, 58, 65]),
        bars(1).map((bar) => ({ ...bar, ...known })),
      )[1];
    expect(of({})).toContain('A#2–C#3 is a minor third');
    expect(of({ key })).toContain('B♭2–D♭3 is a minor third');
  });

  it('stay short in long pieces, and show no controls of a name', () => {
    const chords = Array.from({ length: 80 }, (_, bar) => (bar % 2 === 0 ? [43, 47, 55] : [48, 64, 67]));
    const lines = inBars(...chords);
    expect(lines).toHaveLength(26);
    expect(lines.at(-1)).toBe('  … and 16 more places');
    const crossed = [...chord([48, 60]), ...chord([72, 60, 64], 2000, 2500)];
    const told = voicingText(voicingOf(crossed, bars(2), clock), ['\u001b[2J']);
    expect(told).toContain('\\u{1b}[2J lies above part 3');
    expect(told).not.toContain('\u001b');
  });

  it('stand without bars where the file has none', () => {
    const stretches = [0, 2000].map((tick) => ({ tick, endTick: tick + 2000, bar: null, beat: null }));
    expect(text([...chord([43, 47, 62]), ...chord([43, 47, 62], 2000)], stretches)[1]).toBe(
      '  from tick 0: G2–B2 is a major third that lies low: below B2 it blurs',
    );
  });
});

describe('voicings as rows', () => {
  it('have names of pitches and parts', () => {
    const [row] = voicingJson(voicingOf(chord([43, 47, 62, 79]), bars(1), clock), names);
    expect(row).toMatchObject({
      bar: 1,
      kind: 'open',
      pitches: [
        { pitch: 43, name: 'G2', parts: ['Bass'] },
        { pitch: 47, name: 'B2', parts: ['Tenor'] },
        { pitch: 62, name: 'D4', parts: ['Alto'] },
        { pitch: 79, name: 'G5', parts: ['Soprano'] },
      ],
      doubled: [{ names: ['G2', 'G5'], parts: ['Bass', 'Soprano'] }],
      gaps: [
        { lower: 47, upper: 62, names: ['B2', 'D4'], semitones: 15 },
        { lower: 62, upper: 79, names: ['D4', 'G5'], semitones: 17 },
      ],
      mud: [{ lower: 43, upper: 47, names: ['G2', 'B2'], semitones: 4, limit: 47, limitName: 'B2' }],
    });
    expect(JSON.parse(JSON.stringify(row))).toEqual(row);
  });
});
