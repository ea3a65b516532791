import type { ArticulationMap } from '../../map/index.js';
import { type MeasuredNote, type Notes, ticksUpTo } from '../../midi/index.js';
import type { Decision } from './decision.js';

/**
 * What was decided, and where the notes stand, in columns: a row for each decision, in the line's order. Pitches are as
 * they were played.
 */
export interface DecidedNotes extends Omit<Notes, 'velocity'> {
  /** The names of articulations by their numbers. */
  readonly names: readonly string[];
  readonly articulation: Uint16Array;
  readonly onset: Uint32Array;
  /** The note of a row, to ask more of. */
  noteOf(row: number): MeasuredNote | undefined;
}

/** The same with the decisions as objects, which are made when they are first asked for. */
export interface Decided extends DecidedNotes {
  readonly decisions: readonly Decision[];
}

export function articulationOf({ names, articulation }: DecidedNotes, row: number): string {
  return names[articulation[row] ?? 0] ?? '';
}

export function onsetOf({ onset }: DecidedNotes, row: number): number {
  return onset[row] ?? 0;
}

/** A map's articulations, numbered. */
export function numbered({ articulations }: ArticulationMap): {
  readonly names: readonly string[];
  readonly numberOf: (name: string) => number;
} {
  const names = [...articulations.keys()];
  const numbers = new Map(names.map((name, number) => [name, number]));
  return { names, numberOf: (name) => numbers.get(name) ?? 0 };
}

/**
 * The columns of decisions that are objects.
 *
 * @param last no note begins or ends behind this tick
 */
export function decidedOf(decisions: readonly Decision[], map: ArticulationMap, last: number): Decided {
  const { length } = decisions;
  const { names, numberOf } = numbered(map);
  const columns = {
    articulation: new Uint16Array(length),
    onset: new Uint32Array(length),
    on: new Uint32Array(length),
    off: new Int32Array(length),
    tick: ticksUpTo(last, length),
    endTick: ticksUpTo(last, length),
    pitch: new Uint8Array(length),
  };
  decisions.forEach(({ articulation, note }, row) => {
    columns.articulation[row] = numberOf(articulation);
    columns.onset[row] = note.onset;
    columns.on[row] = note.onIndex;
    columns.off[row] = note.offIndex;
    columns.tick[row] = note.tick;
    columns.endTick[row] = note.endTick;
    columns.pitch[row] = note.pitch;
  });
  return { ...columns, length, names, decisions, noteOf: (row) => decisions[row]?.note };
}
