import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barsOf } from '../../../src/compile/switching/bars.js';
import { clockOf } from '../../../src/midi/clock/index.js';
import { draws } from '../../support/draws.js';
import { songOf, trackOf } from '../../support/song.js';

const signatures = fc.array(
  fc.record({
    tick: fc.integer({ min: 0, max: 4000 }),
    numerator: fc.integer({ min: 1, max: 13 }),
    exponent: fc.integer({ min: 0, max: 6 }),
  }),
  { maxLength: 5 },
);

describe('the bars of ticks', () => {
  it('are those of the clock, in whatever order one asks', () => {
    fc.assert(
      fc.property(signatures, fc.array(fc.nat(9000), { maxLength: 60 }), (changes, ticks) => {
        const events = changes.map(({ tick, numerator, exponent }) => ({
          tick,
          event: {
            type: 'timeSignature',
            numerator,
            denominator: 2 ** exponent,
            metronome: 24,
            thirtyseconds: 8,
          } as const,
        }));
        const clock = clockOf(songOf([trackOf([], events)], { ppq: 97 }), 1);
        const bar = barsOf(clock);
        for (const tick of [...ticks, ...[...ticks].sort((a, b) => a - b)])
          expect(bar(tick)).toBe(clock.position(tick)?.bar);
      }),
      { numRuns: draws(300) },
    );
  });
});
