import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import { asPlayed, type TimingOptions } from '../../../src/timing/options.js';
import { mapOfMethod, methods, randomLine } from '../../support/arbitrary.js';
import { nowIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { retimed, speaking } from '../../support/retimed.js';
import { songOf, type Timed, tempoAt, trackOf } from '../../support/song.js';

describe('options', () => {
  it('never change which articulation is chosen', () => {
    fc.assert(
      fc.property(fc.constantFrom(...methods).chain(mapOfMethod), randomLine, (map, line) => {
        const named = (timing: Partial<TimingOptions>) =>
          nowIn(retimed(map, line, timing, [], {}).part).map(({ articulation }) => articulation);
        const all = {
          compensate: true,
          joins: true,
          pull: 0.8,
          roll: { sdMs: 20, order: 'low-high' },
          loosenMs: 10,
        } as const;
        expect(named(all)).toEqual(named({}));
      }),
      { seed: 73, numRuns: draws(50) },
    );
  });

  it('leave everything that is no note of the part as it was', () => {
    const others: Timed[] = [
      tempoAt(0, 90),
      tempoAt(1234, 133),
      { tick: 777, event: { type: 'controller', channel: 0, controllerType: 1, value: 5 } as Timed['event'] },
    ];
    fc.assert(
      fc.property(randomLine, (line) => {
        const song = songOf([trackOf(line, others, 'Line')]);
        const timing = { ...asPlayed, compensate: true, pull: 1, loosenMs: 8 };
        const { value } = compile(song, [
          { part: { track: 1, trackName: 'Line', channel: 0 }, map: speaking('30ms', '90ms'), timing },
        ]);
        const [part] = value?.parts ?? [];
        expect(part?.retimed.decided.length).toBe(part?.decided.length);
        const again = songOf([trackOf(line, others, 'Line')]);
        expect(
          compile(again, [
            { part: { track: 1, trackName: 'Line', channel: 0 }, map: speaking('30ms', '90ms'), timing },
          ]).value?.bytes,
        ).toEqual(value?.bytes);
      }),
      { seed: 74, numRuns: draws(30) },
    );
  });
});
