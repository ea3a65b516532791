import { describe, expect, it } from 'vitest';
import { mapOf } from '../../support/map.js';
import { retimed, speaking, times } from '../../support/retimed.js';

describe('releases of one pitch', () => {
  it('keep their order where a short stroke overlaps a long one and both move', () => {
    const notes = [
      { tick: 1000, end: 1100, pitch: 60, velocity: 30 },
      { tick: 1020, end: 1110, pitch: 60, velocity: 110 },
    ];
    const roll = { sdMs: 30, order: 'unordered' } as const;
    const [first = [], second = []] = times(retimed(speaking('0ms', '0ms'), notes, { roll }).part);
    expect(first[0]).toBeLessThan(second[0] ?? 0);
    expect(first[1]).toBeLessThanOrEqual(second[1] ?? 0);
  });

  it('stay before the next strike where they were', () => {
    const notes = [
      { tick: 1000, end: 1400, pitch: 60 },
      { tick: 1410, end: 1900, pitch: 60 },
    ];
    const now = times(retimed(speaking('0ms', '140ms'), notes, { compensate: true }).part);
    expect(now).toEqual([
      [860, 1270],
      [1270, 1900],
    ]);
  });
});

describe('joins and compensation together', () => {
  it('the overlap that is heard is the map’s, whatever the two notes need to speak', () => {
    const map = mapOf(`
articulations:
  short: {switch: {note: C0}, speaks-after: 30ms}
  legato: {switch: {note: D0}, speaks-after: 140ms, joins: {overlap: 40ms}}
rules:
  - when: {overlaps-next: true}
    use: legato
  - use: short
`);
    const notes = [
      { tick: 1000, end: 1500, pitch: 60 },
      { tick: 1500, end: 2000, pitch: 62 },
      { tick: 2000, end: 2100, pitch: 64 },
    ];
    const speaks = [140, 140, 30];
    const now = times(retimed(map, notes, { compensate: true, joins: true }).part);
    for (const index of [0, 1]) {
      const heard = (now[index + 1]?.[0] ?? 0) + (speaks[index + 1] ?? 0);
      expect(heard).toBe(notes[index + 1]?.tick);
      expect((now[index]?.[1] ?? 0) - heard).toBe(40);
    }
  });
});
