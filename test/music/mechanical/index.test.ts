import { describe, expect, it } from 'vitest';
import type { Clock, Notes, Onsets } from '../../../src/midi/index.js';
import { type MeasureName, measureMechanical } from '../../../src/music/mechanical/index.js';
import { frameClock, plainClock } from '../../timing/clock.js';

const clock = plainClock(480);
const BAR = 1920;

/** A performance as these tests put it together. */
interface Performance {
  readonly clock: Clock;
  readonly onsets: readonly {
    readonly tick: number;
    readonly notes: readonly { readonly tick: number; readonly endTick: number; readonly velocity: number }[];
  }[];
  readonly dynamics: readonly number[];
}

/** Its notes in columns, and which of them were struck together. */
function columnsOf({ onsets }: Performance): { readonly notes: Notes; readonly onsets: Onsets } {
  const all = onsets.flatMap(({ notes }) => notes);
  const first = [0];
  for (const { notes } of onsets) first.push((first.at(-1) ?? 0) + notes.length);
  const { length } = all;
  const notes = {
    length,
    on: new Uint32Array(length),
    off: new Int32Array(length),
    tick: Int32Array.from(all, ({ tick }) => tick),
    endTick: Int32Array.from(all, ({ endTick }) => endTick),
    pitch: new Uint8Array(length),
    velocity: Uint8Array.from(all, ({ velocity }) => velocity),
  };
  const columns = {
    length: onsets.length,
    first: Uint32Array.from(first),
    top: new Uint32Array(onsets.length),
  };
  return { notes, onsets: columns };
}

/** Eighths over some bars; `vary` gives small whole numbers that differ from note to note. */
function eighths(bars: number, vary: (index: number) => number, chord = 1): Performance {
  const onsets = Array.from({ length: bars * 8 }, (_, index) => {
    const by = vary(index);
    const tick = index * 240 + Math.abs(by);
    const notes = Array.from({ length: chord }, (_, member) => ({
      tick: tick + member * Math.abs(by),
      endTick: tick + 200 + 3 * by,
      velocity: 80 + by,
    }));
    return { tick, notes };
  });
  return { clock, onsets, dynamics: Array.from({ length: bars }, (_, bar) => bar * BAR + 7) };
}

const machine = (bars: number, chord = 1): Performance => ({
  ...eighths(bars, () => 0, chord),
  dynamics: [],
});
/** 2 to 17 ticks (18 ms) late, all lengths and velocities of sixteen successive notes different. */
const player = (bars: number, chord = 1) => eighths(bars, (index) => ((index * 7) % 16) + 2, chord);

const found = (performance: Performance) =>
  new Map<MeasureName, { count: number; of: number; bars: readonly { from: number; to: number }[] }>(
    measureMechanical({ ...performance, ...columnsOf(performance) }).map(({ measure, count, of, bars }) => [
      measure,
      { count, of, bars },
    ]),
  );

describe('measureRobotic', () => {
  it('finds everything in a machine’s performance, in all its bars', () => {
    const all = [{ from: 1, to: 6 }];
    expect(found(machine(6, 3))).toEqual(
      new Map([
        ['exact-onsets', { count: 48, of: 48, bars: all }],
        ['unspread-chords', { count: 48, of: 48, bars: all }],
        ['same-velocities', { count: 144, of: 144, bars: all }],
        ['same-lengths', { count: 144, of: 144, bars: all }],
        ['no-dynamics', { count: 6, of: 6, bars: all }],
      ]),
    );
  });

  it('finds nothing in a player’s', () => {
    for (const { count, of } of found(player(6, 3)).values()) {
      expect(count).toBe(0);
      expect(of).toBeGreaterThan(0);
    }
  });

  it('names the bars that a machine plays among a player’s', () => {
    const [by, machines] = [player(8), machine(8)];
    const fromMachine = (tick: number) => tick >= 3 * BAR && tick < 5 * BAR;
    const onsets = by.onsets.map((onset, index) => {
      const machined = machines.onsets[index];
      return machined && fromMachine(machined.tick) ? machined : onset;
    });
    const measures = found({ clock, onsets, dynamics: by.dynamics });
    expect(measures.get('exact-onsets')).toEqual({ count: 16, of: 64, bars: [{ from: 4, to: 5 }] });
    expect(measures.get('same-velocities')).toEqual({ count: 16, of: 64, bars: [{ from: 4, to: 5 }] });
    expect(measures.get('same-lengths')).toEqual({ count: 16, of: 64, bars: [{ from: 4, to: 5 }] });
  });

  it('finds a rhythm of two lengths each held alike', () => {
    const by = player(4);
    const onsets = by.onsets.map((onset, index) => ({
      ...onset,
      notes: onset.notes.map((note) => ({ ...note, endTick: note.tick + (index % 2 ? 110 : 350) })),
    }));
    expect(found({ ...by, onsets }).get('same-lengths')?.bars).toEqual([{ from: 1, to: 4 }]);
  });

  it('does not mind one bar’s exact onsets, nor three bars without dynamics', () => {
    const few = { ...machine(1), onsets: machine(1).onsets.slice(0, 7) };
    expect(found(few).get('exact-onsets')?.bars).toEqual([]);
    const by = player(8);
    const still = (from: number, to: number) =>
      found({ ...by, dynamics: by.dynamics.filter((tick) => tick < from * BAR || tick >= to * BAR) });
    expect(still(2, 5).get('no-dynamics')).toEqual({ count: 3, of: 8, bars: [] });
    expect(still(2, 6).get('no-dynamics')).toEqual({ count: 4, of: 8, bars: [{ from: 3, to: 6 }] });
  });

  it('looks at what there is where there are no bars', () => {
    const measures = found({ ...machine(6, 3), clock: frameClock });
    expect(measures.get('exact-onsets')).toEqual({ count: 0, of: 0, bars: [] });
    expect(measures.get('unspread-chords')).toEqual({ count: 48, of: 48, bars: [] });
    expect(measures.get('no-dynamics')).toEqual({ count: 1, of: 1, bars: [] });
  });

  it('says nothing of no notes', () => {
    for (const { count, of, bars } of found({ clock, onsets: [], dynamics: [] }).values()) {
      expect({ count, of, bars }).toEqual({ count: 0, of: 0, bars: [] });
    }
  });
});
