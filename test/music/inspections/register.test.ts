import { describe, expect, it } from 'vitest';
import { registerJson, registerText } from '../../../src/music/inspections/register.js';
import { registerOf } from '../../../src/music/register/index.js';
import { clock, note } from '../voicing/support.js';

/** A note to a bar. */
const line = (part: number, pitches: readonly number[]) =>
  pitches.map((pitch, bar) => note(pitch, bar * 2000, (bar + 1) * 2000, part));
const same = (pitch: number, bars: number) => Array.from({ length: bars }, () => pitch);
const text = (...of: Parameters<typeof registerOf>) => registerText(registerOf(...of)).split('\n');

describe('registers in words', () => {
  it('have a line for each part', () => {
    const notes = [...line(0, [60, 69, 70, 90]), ...line(1, same(40, 4))];
    expect(text(notes, [{ name: 'Oboe' }, { name: 'Drone' }], clock)).toEqual([
      "Registers (C4 is middle C; thirds of the instrument's range, in semitones):",
      '  Oboe (melody): C4–F#6, mean C5; of A#3–A6: 50 % dark, 25 % middle, 25 % bright',
      '  Drone (bass): E2–E2, mean E2; no range known',
    ]);
    expect(registerText([])).toBe('');
  });

  it('give a low melody with what may cover it, and how it sounds', () => {
    const notes = [...line(0, [62, 64, 65]), ...line(1, [58, 60, 62])];
    const lines = text(notes, [{ name: 'Oboe solo' }, { name: '2 Horns' }], clock);
    expect(lines.slice(1, 3)).toEqual([
      '  Oboe solo (oboe, melody): D4–F4, mean E4; of A#3–A6: 100 % dark, 0 % middle, 0 % bright',
      '    bars 1–3: lies low for a melody: D4–F4 in its dark third, A#3–A4 (low it sounds wild, after Rimsky-Korsakov); 2 Horns plays close below it, no softer, and may cover it',
    ]);
  });

  it('give high lines and a high bass with the reason', () => {
    const notes = [...line(0, same(90, 4)), ...line(1, same(88, 4)), ...line(2, same(70, 4))];
    const lines = text(notes, [{ name: 'Violin' }, { name: 'Flute' }, { name: 'Cello' }], clock);
    expect(lines.filter((one) => one.startsWith('    '))).toEqual([
      '    bars 1–4: stays high: F#6 in its bright third, F6–A7; it becomes thin, most of all where it is soft',
      '    bars 1–4: stays high: E6 in its bright third, D6–D7; it tires and is hard to keep soft; very high it sounds brilliant, after Rimsky-Korsakov',
      '    bars 1–4: lies high for a bass: A#4 in its bright third, A4–C6; there is little ground beneath the chord',
    ]);
  });

  it('tell notes outside the instrument and the recording', () => {
    const notes = line(0, [50, 60, 50, 60, 100, 60, 50, 60, 50, 60, 50, 60, 50, 60, 50]);
    const parts = [{ name: 'Oboe \u001b[2J', range: { low: 58, high: 100 } }];
    const lines = text(notes, parts, clock);
    expect(lines.slice(2)).toEqual([
      '    bars 1, 3, 5, 7, 9, 11 and 2 more places: 8 notes outside the range of an oboe, A#3–A6: D3–E7',
      '    bars 1, 3, 7, 9, 11, 13 and 1 more place: 7 notes outside what the recording has, A#3–E7: D3',
    ]);
    expect(lines.join()).not.toContain('\u001b');
  });
});

describe('registers as rows', () => {
  it('have names of pitches, and observations with their sentences', () => {
    const notes = [...line(0, [62, 64, 65]), ...line(1, [58, 60, 62])];
    const rows = registerJson(registerOf(notes, [{ name: 'Oboe' }, { name: 'Horn' }], clock));
    expect(rows[0]).toMatchObject({
      name: 'Oboe',
      instrument: 'oboe',
      role: 'melody',
      lowestName: 'D4',
      highestName: 'F4',
      mean: 63.67,
      meanName: 'E4',
      range: { low: 58, high: 93, lowName: 'A#3', highName: 'A6' },
      outsideInstrument: null,
      observations: [
        {
          what: 'low melody',
          bars: { from: 1, to: 3 },
          lowestName: 'D4',
          under: 'Horn',
          says: expect.stringContaining('lies low for a melody'),
        },
      ],
    });
    expect(rows[1]).toMatchObject({ role: 'bass', observations: [] });
  });
});
