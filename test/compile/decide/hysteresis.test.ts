import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decided, detached } from '../../support/decided.js';
import { ladderMap, mapOf } from '../../support/map.js';

const plain = mapOf(ladderMap);
const steady = mapOf(`steadiness: 15%\n${ladderMap}`);
const names = (map: typeof plain, lengths: readonly number[]) =>
  decided(map, detached(lengths)).map(({ articulation }) => articulation);
const changes = (list: readonly string[]) =>
  list.filter((name, index) => index > 0 && name !== list[index - 1]).length;

describe('steadiness', () => {
  it('is off unless the map asks for it', () => {
    expect(names(plain, [125, 135, 125])).toEqual(['short', 'medium', 'short']);
  });

  it('keeps the previous articulation while a bound is crossed by less than its share', () => {
    // 15 % of 130 ms is 19.5 ms.
    expect(names(steady, [100, 149, 150])).toEqual(['short', 'short', 'medium']);
    expect(names(steady, [200, 111, 110])).toEqual(['medium', 'medium', 'short']);
  });

  it('does not keep what lies two steps away', () => {
    // 140 ms lies near 130, but from "long" the bound at 320 would have to be crossed too.
    expect(names(steady, [600, 140])).toEqual(['long', 'medium']);
    expect(names(steady, [100, 310])).toEqual(['short', 'medium']);
  });

  it('keeps the rule too, and says which the plain ladder gave', () => {
    const [, kept] = decided(steady, detached([100, 140]));
    expect(kept).toMatchObject({ articulation: 'short', rule: 1, insteadOf: 2 });
  });

  it('does not bridge what is not a matter of held time or pace', () => {
    const joined = [
      { tick: 0, end: 125, pitch: 60 },
      { tick: 200, end: 335, pitch: 62 },
      { tick: 330, end: 500, pitch: 64 },
    ];
    expect(decided(steady, joined).map(({ articulation }) => articulation)).toEqual([
      'short',
      'joined',
      'medium',
    ]);
  });

  it('works on bounds in fractions', () => {
    const map = mapOf(`steadiness: 20%
articulations:
  short: {switch: {note: C0}}
  long: {switch: {note: D0}}
rules:
  - when: {held: {below: 1/8}}
    use: short
  - use: long
`);
    // ppq 500: 1/8 is 250 ticks, 20 % of it 50.
    expect(names(map, [200, 299, 300, 201, 200])).toEqual(['short', 'short', 'long', 'long', 'short']);
  });

  it('keeps a jittering performance from flickering (common practice, no source)', () => {
    const jitter = fc.array(fc.integer({ min: -10, max: 10 }), { minLength: 30, maxLength: 60 });
    let flickered = 0;
    fc.assert(
      fc.property(jitter, (offsets) => {
        const lengths = offsets.map((offset) => 130 + offset);
        const without = changes(names(plain, lengths));
        const withIt = changes(names(steady, lengths));
        flickered += without;
        expect(withIt).toBe(0);
        expect(withIt).toBeLessThanOrEqual(without);
      }),
      { seed: 21, numRuns: 50 },
    );
    expect(flickered).toBeGreaterThan(100);
  });

  it('changes nothing for notes clear of the band', () => {
    const clear = fc.array(
      fc.oneof(
        fc.integer({ min: 40, max: 110 }),
        fc.integer({ min: 150, max: 271 }),
        fc.integer({ min: 368, max: 900 }),
      ),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(clear, (lengths) => {
        expect(names(steady, lengths)).toEqual(names(plain, lengths));
      }),
      { seed: 22 },
    );
  });
});
