import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestReading, type Sound } from '../../../src/music/harmony/fit.js';
import { type Kind, kinds } from '../../../src/music/harmony/kinds.js';
import { draws } from '../../support/draws.js';

/** What a tone takes away that does not sound. */
function lackOf(tone: number, { tones }: Kind): number {
  if (tone === 3 || tone === 4) return 2;
  return tone === 7 && tones.length > 2 && (tones[1] === 3 || tones[1] === 4) ? 0.3 : 0.8;
}

/** null where it explains too little, or stands on its ninth, eleventh or thirteenth, or is no stack of fourths. */
function scoreOf({ classes, bass, stacked }: Sound, total: number, root: number, kind: Kind): number | null {
  const above = (bass - root + 12) % 12;
  const weights = kind.tones.map((tone) => classes[(root + tone) % 12] ?? 0);
  const matched = weights.reduce((sum, weight) => sum + weight, 0);
  const isQuartal = stacked && above === 0;
  if ((kind.quartal && !isQuartal) || kind.tones.includes(above + 12) || matched < total * 0.6) return null;
  const lacking = kind.tones.filter((_, at) => weights[at] === 0);
  const missing = lacking.reduce((sum, tone) => sum + lackOf(tone, kind), 0);
  const ground = above === 0 ? 0.35 + 0.2 : kind.intervals.includes(above) ? 0.2 : 0;
  return 2 * matched - total - missing - kind.cost + ground;
}

/** Every kind of chord on every root that sounds, one after another; a later one must be better. */
function plainly(sound: Sound) {
  const total = sound.classes.reduce((sum, weight) => sum + weight, 0);
  let best: { root: number; symbol: string; score: number } | null = null;
  for (const root of [...sound.classes.keys()].filter((at) => (sound.classes[at] ?? 0) > 0))
    for (const kind of kinds) {
      const score = scoreOf(sound, total, root, kind);
      if (score !== null && (best === null || score > best.score + 1e-9))
        best = { root, symbol: kind.symbol, score };
    }
  return best && best.score >= 0.8 ? best : null;
}

const share = fc.oneof(
  fc.constant(0),
  fc.constantFrom(0.25, 0.5, 1),
  fc.double({ min: 0.001, max: 1, noNaN: true }),
);

describe('the chord that fits best', () => {
  it('is the best of all kinds on all roots', () => {
    const sounds = fc.record({
      classes: fc.array(share, { minLength: 12, maxLength: 12 }),
      bass: fc.integer({ min: 0, max: 11 }),
      stacked: fc.boolean(),
    });
    fc.assert(
      fc.property(sounds, (sound) => {
        const found = bestReading(sound);
        expect(found && { root: found.root, symbol: found.kind.symbol, score: found.score }).toEqual(
          plainly(sound),
        );
      }),
      { numRuns: draws(500) },
    );
  });
});
