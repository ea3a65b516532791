import type { ArticulationMap } from '../../map/index.js';
import { type MeasuredNote, type Notes, ticksUpTo } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

/** Decided notes where they stand, in columns: a row for each decision. Pitches are as they were played. */
export interface Rows extends Omit<Notes, 'velocity'> {
  /** The names of articulations by their numbers. */
  readonly names: readonly string[];
  readonly articulation: Uint16Array;
  readonly onset: Uint32Array;
  /** The note of a row, to ask more of. */
  noteOf(row: number): MeasuredNote | undefined;
}

/**
 * Decisions in columns.
 *
 * @param last no note begins or ends behind this tick
 */
export function rowsOf(decisions: readonly Decision[], map: ArticulationMap, last: number): Rows {
  const { length } = decisions;
  const names = [...map.articulations.keys()];
  const numbers = new Map(names.map((name, number) => [name, number]));
  const rows = {
    length,
    names,
    articulation: new Uint16Array(length),
    onset: new Uint32Array(length),
    on: new Uint32Array(length),
    off: new Int32Array(length),
    tick: ticksUpTo(last, length),
    endTick: ticksUpTo(last, length),
    pitch: new Uint8Array(length),
    noteOf: (row: number) => decisions[row]?.note,
  };
  decisions.forEach(({ articulation, note }, row) => {
    rows.articulation[row] = numbers.get(articulation) ?? 0;
    rows.onset[row] = note.onset;
    rows.on[row] = note.onIndex;
    rows.off[row] = note.offIndex;
    rows.tick[row] = note.tick;
    rows.endTick[row] = note.endTick;
    rows.pitch[row] = note.pitch;
  });
  return rows;
}

export function articulationOf({ names, articulation }: Rows, row: number): string {
  return names[articulation[row] ?? 0] ?? '';
}

export function onsetOf({ onset }: Rows, row: number): number {
  return onset[row] ?? 0;
}
