import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('pitch', () => {
  it("includes both bounds, spelled as in the library's manual or as MIDI notes", () => {
    const notes = [59, 60, 69, 70].map((pitch, index) => ({
      tick: index * 500,
      end: index * 500 + 100,
      pitch,
    }));
    // With note-60: C4, the A of 440 Hz (MIDI note 69, MIDI 1.0) is A4.
    expect(fitting('{pitch: {from: C4, to: A4}}', notes)).toEqual([false, true, true, false]);
    expect(fitting('{pitch: {from: 70}}', notes)).toEqual([false, false, false, true]);
  });
});
