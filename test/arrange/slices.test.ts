import { describe, expect, it } from 'vitest';
import { chordsOfSketch } from '../../src/arrange/slices.js';
import { steady } from './clock.js';

describe('chordsOfSketch', () => {
  it('reads rolled chords as one, holds tones that are held over, and drops what was slow to leave', () => {
    const note = (tick: number, endTick: number, pitch: number) => ({
      tick,
      endTick,
      pitch,
      velocity: 70,
      part: 0,
    });
    const found = chordsOfSketch(
      [note(0, 1930, 48), note(20, 3840, 60), note(50, 1900, 64), note(1920, 3840, 53), note(1920, 3840, 65)],
      steady,
    );
    expect(found.map(({ tick, endTick, tones }) => [tick, endTick, tones.map(({ pitch }) => pitch)])).toEqual(
      [
        [0, 1920, [48, 60, 64]],
        [1920, 3840, [53, 60, 65]],
      ],
    );
  });
});
