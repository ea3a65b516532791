import { describe, expect, it } from 'vitest';
import { detached, fitting } from '../../support/decided.js';
import { tempoAt } from '../../support/song.js';

describe('held', () => {
  it('includes its lower bound and excludes its upper', () => {
    const lengths = detached([129, 130, 319, 320]);
    expect(fitting('{held: {from: 130ms, below: 320ms}}', lengths)).toEqual([false, true, true, false]);
    expect(fitting('{held: {below: 130ms}}', lengths)).toEqual([true, false, false, false]);
    expect(fitting('{held: {from: 0.32s}}', lengths)).toEqual([false, false, false, true]);
  });

  it('meets a bound exactly wherever in the file the note stands', () => {
    // At 97 bpm a tick of ppq 480 is no round number of ms; a note of 125 ms at 120 bpm is 120 ticks.
    const notes = Array.from({ length: 300 }, (_, index) => ({
      tick: index * 481,
      end: index * 481 + 120,
      pitch: 60,
    }));
    expect(fitting('{held: {from: 125ms, below: 126ms}}', notes, [], { ppq: 480 })).not.toContain(false);
  });

  it('measures fractions in ticks, whatever the tempo', () => {
    const notes = [
      { tick: 0, end: 160, pitch: 60 },
      { tick: 500, end: 659, pitch: 60 },
    ];
    for (const bpm of [40, 120, 201])
      expect(fitting('{held: {from: 1/12}}', notes, [tempoAt(0, bpm)], { ppq: 480 })).toEqual([true, false]);
  });
});
