import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EventMoves } from '../../../src/compile/retime/event-moves.js';
import { besideMoved, endsInOrder } from '../../../src/compile/retime/releases.js';
import { draws } from '../../support/draws.js';
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

/** A note as it was played (`offIndex` −1: never released), where it begins and ends now, and its row. */
interface Row {
  readonly row: number;
  readonly pitch: number;
  readonly offIndex: number;
  readonly tick: number;
  readonly endTick: number;
  readonly start: number;
  readonly end: number;
}

const lines = fc
  .array(
    fc.record({
      step: fc.nat(3),
      length: fc.nat(6),
      pitch: fc.integer({ min: 60, max: 62 }),
      by: fc.integer({ min: -3, max: 3 }),
      more: fc.integer({ min: -4, max: 4 }),
      isOpen: fc.boolean(),
      isMoved: fc.boolean(),
    }),
    { maxLength: 24 },
  )
  .map((list) => {
    let tick = 3;
    return list.map(({ step, length, pitch, by, more, isOpen, isMoved }, row): Row => {
      tick += step;
      const [start, end] = isMoved ? [tick + by, tick + length + more] : [tick, tick + length];
      const offIndex = isOpen && row % 4 === 0 ? -1 : row;
      return { row, pitch, offIndex, tick, endTick: tick + length, start, end };
    });
  });

const columnsOf = (rows: readonly Row[]) => ({
  decided: {
    length: rows.length,
    off: Int32Array.from(rows, ({ offIndex }) => offIndex),
    tick: Int32Array.from(rows, ({ tick }) => tick),
    endTick: Int32Array.from(rows, ({ endTick }) => endTick),
    pitch: Uint8Array.from(rows, ({ pitch }) => pitch),
  },
  ticks: {
    starts: Float64Array.from(rows, ({ start }) => start),
    ends: Float64Array.from(rows, ({ end }) => end),
  },
});

/** The same pitch by pitch: cut at each strike before which a note was released, then none before an earlier one. */
function endsByPitch(rows: readonly Row[]): readonly number[] {
  const ends = rows.map(({ end }) => end);
  for (const pitch of new Set(rows.map((one) => one.pitch))) {
    const strikes = rows.filter((one) => one.pitch === pitch);
    const cuts = strikes.map((one, at) => {
      const next = strikes[at + 1];
      const isCut = next && one.endTick <= next.tick && one.tick < next.tick;
      return isCut ? next.start : Number.POSITIVE_INFINITY;
    });
    let latest = 0;
    strikes.forEach((one, at) => {
      const cut = Math.min(one.end, ...cuts.slice(at));
      const end = Math.max(cut, latest);
      const hasMoved = one.start !== one.tick || end !== one.endTick;
      ends[one.row] = one.offIndex < 0 ? cut : hasMoved ? Math.max(end, one.start + 1) : end;
      if (one.offIndex >= 0) latest = ends[one.row] ?? 0;
    });
  }
  return ends;
}

describe('releases in one go', () => {
  it('are those that are put in order pitch by pitch', () => {
    fc.assert(
      fc.property(lines, (rows) => {
        const { decided, ticks } = columnsOf(rows);
        expect([...endsInOrder(decided, ticks)]).toEqual(endsByPitch(rows));
      }),
      { seed: 72, numRuns: draws(400) },
    );
  });

  it('that stay where another of their pitch is moved to are all found', () => {
    let beside = 0;
    fc.assert(
      fc.property(lines, (rows) => {
        const { decided, ticks } = columnsOf(rows);
        const ends = endsInOrder(decided, ticks);
        const moves = new EventMoves(rows.length);
        for (const { row, offIndex, endTick } of rows)
          if (offIndex >= 0 && ends[row] !== endTick) moves.set(offIndex, ends[row] ?? 0);
        const isMoved = ({ offIndex }: Row) => moves.has(offIndex);
        const expected = rows.filter((one) => {
          if (one.offIndex < 0 || isMoved(one) || one.start >= (ends[one.row] ?? 0)) return false;
          return rows.some(
            (other) => isMoved(other) && other.pitch === one.pitch && ends[other.row] === ends[one.row],
          );
        });
        const found = new Set(besideMoved(decided, { starts: ticks.starts, ends }, moves));
        expect([...found].sort((a, b) => a - b)).toEqual(expected.map(({ row }) => row));
        beside += found.size;
      }),
      { seed: 73, numRuns: draws(400) },
    );
    expect(beside).toBeGreaterThan(0);
  });
});
