import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fineValues, lowByteOf } from '../../src/cue/fine.js';
import { exactRescaler } from '../../src/dynamics/levels.js';
import { draws } from '../support/draws.js';
import { controllerAt, songOf, trackOf } from '../support/song.js';

const value = fc.integer({ min: 0, max: 127 });

describe('controllers of two bytes', () => {
  it('have their low byte 32 above, for 0 to 31 (MIDI 1.0)', () => {
    expect([0, 1, 31, 32, 64].map(lowByteOf)).toEqual([32, 33, 63, undefined, undefined]);
  });

  it('are carried over within half a step of the low byte, where both bytes stand together', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(value, value), { minLength: 1, maxLength: 12 }), (pairs) => {
        const scale = exactRescaler(
          new Map([
            ['p', 30],
            ['f', 110],
          ]),
        );
        const events = pairs.flatMap(([high, low], at) => [
          controllerAt(at * 10, 1, high),
          controllerAt(at * 10, 33, low),
        ]);
        const [track] = songOf([trackOf([], events, 'x')]).tracks;
        if (!track) throw new Error('there is a track');
        const values = [...(fineValues(track, 0, 1, 33, scale) ?? [])].map(([, one]) => one);
        pairs.forEach(([high, low], at) => {
          const got = (values[2 * at] ?? -1) + (values[2 * at + 1] ?? -1) / 128;
          expect(Math.abs(got - scale(high + low / 128))).toBeLessThanOrEqual(0.5 / 128 + 1e-9);
        });
      }),
      { seed: 3, numRuns: draws(200) },
    );
  });

  it('are left to their high byte where no low one was recorded', () => {
    const [track] = songOf([trackOf([], [controllerAt(0, 1, 5)], 'x')]).tracks;
    expect(track && fineValues(track, 0, 1, 33, (one) => one)).toBeUndefined();
  });
});
