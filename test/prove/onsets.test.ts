import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { onsetFinder } from '../../src/prove/onsets.js';
import { fileOf, library, note } from './events.js';

const clock = clockOf(fileOf(note(0, 1, 60)), 1);
const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);

describe('onsetFinder', () => {
  it('joins notes to the first of their onset, as far as the window reaches', () => {
    expect([0, 20, 35, 36, 60, 72].map(onsetFinder({ clock, map }))).toEqual([0, 0, 0, 1, 1, 2]);
  });

  it('takes windows in parts of a whole note', () => {
    const window = { unit: 'whole', numerator: 1, denominator: 40 } as const;
    expect([0, 50, 51].map(onsetFinder({ clock, map: { ...map, chordWindow: window } }))).toEqual([0, 0, 1]);
  });

  it('keeps notes of one tick together without any window', () => {
    const window = { unit: 'ms', ms: 0 } as const;
    expect([7, 7, 8].map(onsetFinder({ clock, map: { ...map, chordWindow: window } }))).toEqual([0, 0, 1]);
  });
});
