import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import { mapOfMethod, methods, randomLine } from '../../support/arbitrary.js';
import { decisionsIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { bytesOf, songOf, tempoAt, trackOf } from '../../support/song.js';

describe('for random lines and maps of every method', () => {
  for (const [index, method] of methods.entries())
    it(`no switch sounds at or before the previous onset of its channel, none after its note: ${method}`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, (map, line) => {
          const song = songOf([trackOf(line, [tempoAt(0, 100)])]);
          const { value } = compile(song, [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
          const [part] = value?.parts ?? [];
          if (!value || !part) throw new Error('nothing compiled');
          const { switched, line: measured } = part;
          const decisions = decisionsIn(part);
          decisions.forEach(({ note, articulation }, at) => {
            const tick = switched.switchTicks[at] ?? null;
            if (tick === null) return;
            const isOfChannel = (name: string) => method !== 'channel' || name === articulation;
            const before = decisions.filter(
              (other) => other.note.onset < note.onset && isOfChannel(other.articulation),
            );
            expect(tick).toBeGreaterThan(Math.max(-1, ...before.map((other) => other.note.tick)));
            expect(tick).toBeLessThanOrEqual(measured.onsets[note.onset]?.tick ?? -1);
          });
        }),
        { seed: 400 + index, numRuns: draws(40) },
      );
    });

  it('compiling twice gives the same bytes', () => {
    fc.assert(
      fc.property(fc.constantFrom(...methods).chain(mapOfMethod), randomLine, (map, line) => {
        const once = () =>
          compile(songOf([trackOf(line)]), [{ part: { track: 1, trackName: '', channel: 0 }, map }]).value
            ?.bytes;
        expect(once()).toEqual(once());
        expect(once()?.length).toBeGreaterThan(bytesOf([trackOf(line)]).length - 1);
      }),
      { seed: 410, numRuns: draws(40) },
    );
  });
});
