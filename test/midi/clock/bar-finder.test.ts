import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barFinder, clockOf } from '../../../src/midi/clock/index.js';
import { smpteClock } from '../../../src/midi/clock/smpte.js';
import { barGrid, beatGrid } from '../../../src/music/harmony/grid.js';
import { draws } from '../../support/draws.js';
import { signature, songWith } from './songs.js';

const tick = fc.integer({ min: 0, max: 2000 });
/** Clocks whose beats are mostly longer than a tick, and now and then shorter. */
const clocks = fc
  .tuple(
    fc.constantFrom(1, 3, 24, 96),
    fc.uniqueArray(fc.tuple(tick, fc.integer({ min: 1, max: 12 }), fc.constantFrom(1, 2, 4, 8, 16)), {
      maxLength: 4,
      selector: ([at]) => at,
    }),
  )
  .map(([division, changes]) => {
    const rising = changes.sort(([a], [b]) => a - b);
    return clockOf(
      songWith([rising.map(([at, beats, unit]) => signature(at, beats, unit))], { division }),
      1,
    );
  });

describe('bars and beats that are looked up one behind the other', () => {
  it('are those that the clock tells of each tick alone', () => {
    fc.assert(
      fc.property(clocks, fc.array(tick, { maxLength: 60 }), (clock, ticks) => {
        const [barAt, bars, beats] = [barFinder(clock), barGrid(clock), beatGrid(clock)];
        for (const here of ticks) {
          const { bar, beat } = clock.position(here) ?? { bar: 0, beat: 0 };
          const [from, to] = [clock.barStart(bar), clock.barStart(bar + 1)];
          expect(barAt(here)).toEqual({ bar, from, to });
          expect(bars(here)).toEqual({ from, to });
          expect(beats(here)).toEqual({ from: clock.barStart(bar, beat), to: clock.barStart(bar, beat + 1) });
        }
      }),
      { numRuns: draws(300) },
    );
  });

  it('are none where the file counts frames', () => {
    expect(barFinder(smpteClock({ kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 }))(7)).toBeNull();
  });
});
