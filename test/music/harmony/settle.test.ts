import { describe, expect, it } from 'vitest';
import { changeGrid } from '../../../src/music/harmony/grid.js';
import { settle } from '../../../src/music/harmony/settle.js';
import { clockFor } from './support.js';

// At 125 bpm and 480 ticks a tick is a millisecond, an eighth 240 of them.
const clock = clockFor(4, 125);
const settled = (...notes: readonly (readonly [tick: number, endTick: number, pitch: number])[]) => {
  const { notes: found, lines } = settle(
    notes.map(([tick, endTick, pitch]) => ({ tick, endTick, pitch, velocity: 80, part: 0 })),
    clock,
    changeGrid(clock),
  );
  return { notes: found.map(({ tick, endTick, pitch }) => [tick, endTick, pitch]), lines };
};

describe('settle', () => {
  it('puts loose onsets and dragging releases on the line that is meant', () => {
    expect(settled([455, 1010, 60], [500, 970, 64], [985, 1400, 62])).toEqual({
      notes: [
        [480, 960, 60],
        [480, 960, 64],
        [960, 1440, 62],
      ],
      lines: [480, 960, 1440],
    });
  });

  it('leaves a note that is held over a change', () => {
    expect(settled([0, 1200, 60], [480, 960, 64]).notes).toEqual([
      [0, 1200, 60],
      [480, 960, 64],
    ]);
  });

  it('leaves triplets off the line, and draws none there', () => {
    expect(settled([0, 160, 60], [160, 320, 62], [320, 480, 64])).toEqual({
      notes: [
        [0, 160, 60],
        [160, 320, 62],
        [320, 480, 64],
      ],
      lines: [0, 480],
    });
  });

  it('draws a line where a chord is struck off the grid, and where sound begins and ends', () => {
    expect(settled([90, 1000, 60], [100, 1000, 64], [110, 1000, 67]).lines[0]).toBe(90);
    expect(settled([170, 1038, 60]).lines).toEqual([170, 1038]);
  });
});
