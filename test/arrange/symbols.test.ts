import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chordsOfSymbols } from '../../src/arrange/symbols.js';
import { at, steady } from './clock.js';

const read = (text: string) => chordsOfSymbols(text, steady);
const pitches = (text: string) => read(text).chords.map(({ tones }) => tones.map(({ pitch }) => pitch));

describe('chordsOfSymbols', () => {
  it('reads the example of the task: bars share evenly, a slash names the bass', () => {
    const { chords, remarks } = read('| Dm | Gm/B♭ C7 | F |');
    expect(remarks).toEqual([]);
    expect(chords.map(({ tick, endTick }) => [tick, endTick])).toEqual([
      [at(1, 1), at(2, 1)],
      [at(2, 1), at(2, 3)],
      [at(2, 3), at(3, 1)],
      [at(3, 1), at(4, 1)],
    ]);
    // Dm over D3: A3 D4 F4; Gm over B♭2: G3 B♭3 D4; C7 over C3: G3 B♭3 C4 E4; F over F2: A3 C4 F4.
    expect(pitches('| Dm | Gm/B♭ C7 | F |')).toEqual([
      [50, 57, 62, 65],
      [46, 55, 58, 62],
      [48, 55, 58, 60, 64],
      [41, 57, 60, 65],
    ]);
  });

  it('holds with a point, repeats with %, and takes each symbol for a bar where there are no bar lines', () => {
    expect(read('| C . . G | % |').chords.map(({ tick }) => tick)).toEqual([
      at(1, 1),
      at(1, 4),
      at(2, 1),
      at(2, 4),
    ]);
    expect(read('| . | C |').chords.map(({ tick }) => tick)).toEqual([at(2, 1)]);
    expect(read('Dm Gm\nC7 F').chords.map(({ tick }) => tick)).toEqual([
      at(1, 1),
      at(2, 1),
      at(3, 1),
      at(4, 1),
    ]);
    expect(read('| C |\n| G |').chords.map(({ tick }) => tick)).toEqual([at(1, 1), at(2, 1)]);
  });

  // Pitch classes above the root, as chord handbooks spell them (common practice).
  it.each([
    ['C', '0 4 7'],
    ['Cm', '0 3 7'],
    ['C°', '0 3 6'],
    ['C+', '0 4 8'],
    ['Cmaj7', '0 4 7 11'],
    ['CΔ', '0 4 7 11'],
    ['C-7', '0 3 7 10'],
    ['Cø', '0 3 6 10'],
    ['Cm7♭5', '0 3 6 10'],
    ['Cm(maj7)', '0 3 7 11'],
    ['Csus4', '0 5 7'],
    ['C7♭9', '0 1 4 7 10'],
    ['C6/9', '0 2 4 7 9'],
    ['Cm6/9', '0 2 3 7 9'],
    ['Cm(add9)', '0 2 3 7'],
    ['C5', '0 7'],
    ['Am7/C', '0 4 7 9'],
    ['F/C', '0 5 9'],
    ['B♭/C', '0 2 5 10'],
  ])('reads %s', (symbol, classes) => {
    const found = new Set(pitches(symbol)[0]?.map((pitch) => pitch % 12));
    expect([...found].sort((a, b) => a - b).join(' ')).toBe(classes);
    expect((pitches(symbol)[0]?.[0] ?? 0) % 12).toBe(0);
  });

  it('tells every symbol that it does not know, with its place, and gives no chords then', () => {
    const { chords, remarks } = read('| Dm | Hm7 |\n| C | Foo x |');
    expect(chords).toEqual([]);
    expect(remarks.map(({ code, place, message }) => [code, place, message])).toEqual([
      ['unknown-chord', { kind: 'text', line: 1, column: 8 }, '"Hm7" is not a chord symbol'],
      ['unknown-chord', { kind: 'text', line: 2, column: 7 }, '"Foo" is not a chord symbol'],
      ['unknown-chord', { kind: 'text', line: 2, column: 11 }, '"x" is not a chord symbol'],
    ]);
    expect(read(' | | ').remarks.map(({ code }) => code)).toEqual(['no-chords']);
    const noBars = chordsOfSymbols('| C |', { barStart: () => null });
    expect(noBars.remarks.map(({ code }) => code)).toEqual(['no-bars']);
  });

  it('never throws, and lays chords out without mud', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        for (const { tones } of read(text).chords) {
          expect(tones[0]?.pitch).toBeGreaterThanOrEqual(40);
          for (const { pitch } of tones.slice(1)) expect(pitch).toBeGreaterThanOrEqual(55);
        }
      }),
    );
  });
});
