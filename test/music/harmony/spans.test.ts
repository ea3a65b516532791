import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spansOf } from '../../../src/music/harmony/spans.js';
import { draws } from '../../support/draws.js';
import { musicInLines } from './random.js';

describe('what sounds between lines', () => {
  it('is what a plain count of the ticks of each pitch gives', () => {
    fc.assert(
      fc.property(musicInLines({ longSilences: true }), ({ notes, lines }) => {
        const spans = spansOf(notes, lines);
        expect(spans.length).toBe(lines.length - 1);
        for (let span = 0; span < spans.length; span++) {
          const [tick = 0, endTick = 0] = lines.slice(span);
          const length = endTick - tick;
          const expected = [...new Set(notes.map(({ pitch }) => pitch))]
            .sort((a, b) => a - b)
            .flatMap((pitch) => {
              const pieces = notes
                .filter((one) => one.pitch === pitch)
                .map((one) => {
                  const ticks = Math.min(one.endTick, endTick) - Math.max(one.tick, tick);
                  const isWhole = one.tick < tick && one.endTick >= endTick;
                  return { ticks: Math.max(0, ticks), isWhole, passing: one.passing };
                });
              // Notes that go through count once, and as a tone that stands.
              const part = pieces.filter(({ isWhole }) => !isWhole);
              const through = part.length < pieces.length ? length : 0;
              const ticks = part.reduce((sum, one) => sum + one.ticks, through);
              const weight = part.reduce((sum, one) => sum + one.ticks * (one.passing ? 0.5 : 1), through);
              return ticks > 0 ? [[pitch, Math.min(1, ticks / length), Math.min(1, weight / length)]] : [];
            });
          const found = [];
          for (let at = spans.first[span] ?? 0; at < (spans.first[span + 1] ?? 0); at++)
            found.push([spans.pitch[at], spans.share[at], spans.weight[at]]);
          expect(found).toEqual(expected);
        }
      }),
      { numRuns: draws(300) },
    );
  });
});
