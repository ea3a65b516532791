import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spellPitch } from '../../../src/diagnostics/pitch.js';
import { parsePitch } from '../../../src/map/source/pitch.js';

describe('pitches as manuals spell them', () => {
  // MIDI 1.0: note 60 is middle C, and note 69 the A of 440 Hz; manuals print the octave of middle C as 3, 4 or 5.
  for (const middleC of [3, 4, 5] as const)
    it(`middle C is 60 and the A of 440 Hz is 69 where middle C is spelled C${middleC}`, () => {
      expect(parsePitch(`C${middleC}`, middleC)).toBe(60);
      expect(parsePitch(`A${middleC}`, middleC)).toBe(69);
      expect(spellPitch(60, middleC)).toBe(`C${middleC}`);
      expect(spellPitch(69, middleC)).toBe(`A${middleC}`);
    });

  it('have sharps and flats, across the octave too', () => {
    expect(['F#4', 'Gb4', 'B#3', 'Cb4', 'bb3', 'C-1'].map((text) => parsePitch(text, 4))).toEqual([
      66, 66, 60, 59, 58, 0,
    ]);
  });

  it('are the MIDI note itself where they are numbers', () => {
    expect([0, 60, 127].map((note) => parsePitch(note, 3))).toEqual([0, 60, 127]);
  });

  it('are none outside 0 to 127, and none for other texts', () => {
    for (const text of ['C-3', 'G#9', 'C10', 'H4', 'C', '4', 'C##4', 'C4 ', -1, 128, 60.5])
      expect(parsePitch(text, 4)).toBeUndefined();
  });

  it('are read as they are spelled', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 127 }),
        fc.constantFrom(3 as const, 4 as const, 5 as const),
        (note, middleC) => {
          expect(parsePitch(spellPitch(note, middleC), middleC)).toBe(note);
        },
      ),
      { seed: 51 },
    );
  });
});
