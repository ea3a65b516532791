import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { onsetFinder } from '../../src/prove/onsets.js';
import { fileOf, library, note } from './events.js';

const clock = clockOf(fileOf(note(0, 1, 60)), 1);
const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);

const longNotes = (ticks: readonly number[]) => ticks.map((tick) => ({ tick, endTick: tick + 1000 }));

describe('onsetFinder', () => {
  it('joins notes to the first of their onset, as far as the window reaches', () => {
    expect(longNotes([0, 20, 80, 81, 161, 162]).map(onsetFinder({ clock, map }))).toEqual([0, 0, 0, 1, 1, 2]);
  });

  it('joins no note that was let go before it sounded with the others for long enough', () => {
    const at = (tick: number, endTick: number) => ({ tick, endTick });
    const onsets = (...notes: readonly { tick: number; endTick: number }[]) =>
      notes.map(onsetFinder({ clock, map }));
    expect(onsets(at(0, 54), at(20, 500))).toEqual([0, 0]);
    expect(onsets(at(0, 33), at(20, 500))).toEqual([0, 1]);
    expect(onsets(at(0, 500), at(20, 33), at(40, 500))).toEqual([0, 1, 2]);
  });

  it('takes windows in parts of a whole note', () => {
    const window = { unit: 'whole', numerator: 1, denominator: 40 } as const;
    expect(longNotes([0, 50, 51]).map(onsetFinder({ clock, map: { ...map, chordWindow: window } }))).toEqual([
      0, 0, 1,
    ]);
  });

  it('keeps notes of one tick together without any window', () => {
    const window = { unit: 'ms', ms: 0 } as const;
    expect(longNotes([7, 7, 8]).map(onsetFinder({ clock, map: { ...map, chordWindow: window } }))).toEqual([
      0, 0, 1,
    ]);
  });
});
