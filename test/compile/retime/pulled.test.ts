import { describe, expect, it } from 'vitest';
import type { TimingOptions } from '../../../src/timing/options.js';
import { retimed, speaking, times } from '../../support/retimed.js';
import type { Timed } from '../../support/song.js';

describe('pull', () => {
  const map = speaking('0ms', '0ms');
  const played = [1012, 1240, 1506, 1745, 2003].map((tick) => ({ tick, end: tick + 150, pitch: 60 }));
  const starts = (timing: Partial<TimingOptions>) =>
    times(retimed(map, played, timing).part).map(([start]) => start);
  it('0% is the identity', () => {
    expect(starts({ pull: 0 })).toEqual(played.map(({ tick }) => tick));
  });
  it('100% puts every onset on its place of the found grid', () => {
    expect(starts({ pull: 1 })).toEqual([1000, 1250, 1500, 1750, 2000]);
  });
  it('60% leaves 40% of each distance, within a tick (common practice, no source: about 60%)', () => {
    starts({ pull: 0.6 }).forEach((start, index) => {
      const place = 1000 + index * 250;
      expect(Math.abs((start ?? 0) - place - 0.4 * ((played[index]?.tick ?? 0) - place))).toBeLessThanOrEqual(
        1,
      );
    });
  });
  it('takes releases along', () => {
    const moved = times(retimed(map, played, { pull: 1 }).part);
    expect(moved.map(([start = 0, end = 0]) => end - start)).toEqual([150, 150, 150, 150, 150]);
  });
  it('keeps to a given grid', () => {
    expect(
      starts({ pull: 1, grids: [{ numerator: 1, denominator: 4 }] }).filter(
        (start) => (start ?? 0) % 500 === 0,
      ),
    ).toEqual([1000, 1500, 2000]);
  });
  it('counts beats from the bar after bars of odd length', () => {
    const signature: Timed = {
      tick: 0,
      event: {
        type: 'timeSignature',
        meta: true,
        numerator: 7,
        denominator: 8,
        metronome: 24,
        thirtyseconds: 8,
      } as Timed['event'],
    };
    // At ppq 480 a bar of 7/8 is 1680 ticks: the second begins between two quarters.
    const notes = [1686, 2150, 2645, 3126].map((tick) => ({ tick, end: tick + 200, pitch: 60 }));
    expect(times(retimed(map, notes, { pull: 1 }, [signature], {}).part).map(([start]) => start)).toEqual([
      1680, 2160, 2640, 3120,
    ]);
  });
});
