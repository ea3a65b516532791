import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decisionsIn, nowIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { mapOf } from '../../support/map.js';
import { retimed, speaking, times } from '../../support/retimed.js';

describe('joins', () => {
  const map = speaking('0ms', '0ms', ', joins: {overlap: 40ms}');
  it('hold joined notes over the next onset, and the last of the group not', () => {
    const joined = [
      { tick: 0, end: 500, pitch: 60 },
      { tick: 500, end: 1000, pitch: 62 },
      { tick: 1000, end: 1500, pitch: 64 },
      { tick: 2000, end: 2500, pitch: 65 },
    ];
    expect(times(retimed(map, joined, { joins: true }).part).map(([, end]) => end)).toEqual([
      540, 1040, 1500, 2500,
    ]);
    expect(times(retimed(map, joined, {}).part).map(([, end]) => end)).toEqual([500, 1000, 1500, 2500]);
  });

  it('never hold a key that is struck again', () => {
    const repeated = [
      { tick: 0, end: 500, pitch: 60 },
      { tick: 500, end: 1000, pitch: 60 },
    ];
    expect(times(retimed(map, repeated, { joins: true }).part)).toEqual([
      [0, 500],
      [500, 1000],
    ]);
  });

  it('keep to the shortest and the longest length', () => {
    const limited = mapOf(
      'articulations:\n  only: {switch: {note: C0}, length: {min: 100ms, max: 400ms}}\nrules:\n  - use: only\n',
    );
    const notes = [
      { tick: 0, end: 50, pitch: 60 },
      { tick: 1000, end: 1900, pitch: 62 },
      { tick: 2000, end: 2200, pitch: 64 },
    ];
    expect(times(retimed(limited, notes, { joins: true }).part).map(([, end]) => end)).toEqual([
      100, 1400, 2200,
    ]);
  });

  it('a detached note never reaches the next onset of its channel, whatever the options', () => {
    const steps = fc.array(fc.tuple(fc.integer({ min: 60, max: 700 }), fc.integer({ min: 10, max: 100 })), {
      minLength: 2,
      maxLength: 30,
    });
    fc.assert(
      fc.property(steps, (list) => {
        let tick = 1000;
        const notes = list.map(([step, share], index) => {
          const note = {
            tick,
            end: tick + Math.max(1, Math.floor((step * Math.min(share, 85)) / 100)),
            pitch: 50 + (index % 20),
          };
          tick += step;
          return note;
        });
        const { part } = retimed(speaking('40ms', '140ms'), notes, {
          compensate: true,
          joins: true,
          pull: 0.6,
          loosenMs: 8,
        });
        const now = nowIn(part);
        now.forEach(({ note }, index) => {
          const next = now[index + 1];
          if (next && next.note.onset !== note.onset && !decisionsIn(part)[index]?.note.overlapsNext)
            expect(note.endTick).toBeLessThanOrEqual(Math.max(next.note.tick, note.tick + 1));
        });
      }),
      { seed: 72, numRuns: draws(60) },
    );
  });
});

describe('what fuzzing found', () => {
  it('every note of a chord stands behind the switch that the first of them needs', () => {
    // A fast short note, then a chord whose articulation speaks so late that it is held back by the note before it.
    const notes = [
      { tick: 1000, end: 1020, pitch: 66 },
      { tick: 1040, end: 1500, pitch: 67 },
      { tick: 1040, end: 1500, pitch: 72 },
    ];
    const { part } = retimed(speaking('0ms', '140ms'), notes, { compensate: true });
    expect(times(part).map(([start]) => start)).toEqual([1000, 1001, 1001]);
  });

  const routed = mapOf(`
articulations:
  short: {switch: {channel: 2}, speaks-after: 10ms}
  long: {switch: {channel: 3}, speaks-after: 140ms, joins: {overlap: 60ms}}
rules:
  - when: {held: {below: 60ms}}
    use: short
  - use: long
`);
  it('a joined note reaches over the next onset of the line, on whatever channel that is', () => {
    const notes = [
      { tick: 1000, end: 1300, pitch: 60 },
      { tick: 1300, end: 1350, pitch: 62 },
      { tick: 2000, end: 2300, pitch: 64 },
    ];
    expect(times(retimed(routed, notes, { joins: true }).part)[0]).toEqual([1000, 1360]);
  });

  it('strikes of one key keep their order across channels, each released before the next', () => {
    const roll = [0, 40, 80, 120, 160].map((step, index) => ({
      tick: 1000 + step,
      end: 1000 + step + (index % 2 === 0 ? 30 : 38),
      pitch: 28,
    }));
    const map = mapOf(`chord-window: 0ms
articulations:
  short: {switch: {channel: 2}, speaks-after: 10ms}
  long: {switch: {channel: 3}, speaks-after: 140ms}
rules:
  - when: {held: {below: 35ms}}
    use: short
  - use: long
`);
    const now = times(retimed(map, roll, { compensate: true }).part);
    now.forEach(([start = 0, end = 0], index) => {
      expect(end).toBeGreaterThan(start);
      expect(end).toBeLessThanOrEqual(now[index + 1]?.[0] ?? Number.POSITIVE_INFINITY);
    });
  });
});
