import { dynamicMarks } from '../dynamics/index.js';
import { type Articulation, type ArticulationMap, formatDuration, type TimeStep } from '../map/index.js';
import type { Becomes } from './matching.js';

/** Something that is otherwise in the second map. */
export interface Otherwise<T> {
  readonly from: T;
  readonly to: T;
}

/** Times as a map spells them (`40ms`, `1/16`): one, or the steps of a list, each for its own notes. */
export type Times = readonly string[];

/** An articulation and what it becomes, whose notes are loud by something else. */
export interface LoudnessDifference {
  readonly from: string;
  readonly to: string;
  readonly loudness?: Otherwise<Articulation['loudness']>;
  /** The range that played velocities are laid into; null where they stay. */
  readonly velocity?: Otherwise<readonly [least: number, most: number] | null>;
}

/** An articulation and what it becomes, which begins to sound later or earlier, or joins its notes otherwise. */
export interface DelayDifference {
  readonly from: string;
  readonly to: string;
  readonly speaksAfter?: Otherwise<Times>;
  /** How far notes are held over the next onset; none where the articulation does not join. */
  readonly joins?: Otherwise<Times>;
}

/** In what two maps differ besides their articulations and rules; only what does. */
export interface Differences {
  /** MIDI notes. */
  readonly range?: Otherwise<ArticulationMap['range']>;
  /** The controller of the dynamics; null where a map has none. */
  readonly controller?: Otherwise<number | null>;
  /** Marks whose values differ; null where a map has none. */
  readonly levels?: readonly ({ readonly mark: string } & Otherwise<number | null>)[];
  readonly loudness?: readonly LoudnessDifference[];
  readonly lead?: Otherwise<string>;
  readonly delays?: readonly DelayDifference[];
}

/** Compares what two maps say of range, dynamics and delays. */
export function differencesOf(
  a: ArticulationMap,
  b: ArticulationMap,
  becomes: readonly Becomes[],
): Differences {
  const pairs = becomes.flatMap(({ from, to }) => {
    const [before, after] = [a.articulations.get(from), to === null ? undefined : b.articulations.get(to)];
    return before && after ? [{ before, after }] : [];
  });
  return {
    ...some('range', otherwise(a.range, b.range)),
    ...some('controller', otherwise(a.dynamics?.controller ?? null, b.dynamics?.controller ?? null)),
    ...some('levels', filled(levels(a, b))),
    ...some('loudness', filled(pairs.flatMap(({ before, after }) => loudness(before, after)))),
    ...some('lead', otherwise(formatDuration(a.switching.lead), formatDuration(b.switching.lead))),
    ...some('delays', filled(pairs.flatMap(({ before, after }) => delays(before, after)))),
  };
}

function levels(a: ArticulationMap, b: ArticulationMap): NonNullable<Differences['levels']> {
  const [before, after] = [a.dynamics?.levels, b.dynamics?.levels];
  const marks = dynamicMarks.filter((mark) => before?.has(mark) || after?.has(mark));
  return marks.flatMap((mark) => {
    const differ = otherwise(before?.get(mark) ?? null, after?.get(mark) ?? null);
    return differ ? [{ mark, ...differ }] : [];
  });
}

function loudness(before: Articulation, after: Articulation): readonly LoudnessDifference[] {
  const found = {
    ...some('loudness', otherwise(before.loudness, after.loudness)),
    ...some('velocity', otherwise(before.velocity?.into ?? null, after.velocity?.into ?? null)),
  };
  return Object.keys(found).length === 0 ? [] : [{ from: before.name, to: after.name, ...found }];
}

function delays(before: Articulation, after: Articulation): readonly DelayDifference[] {
  const found = {
    ...some('speaksAfter', otherwiseTimes(before.speaksAfter, after.speaksAfter)),
    ...some('joins', otherwiseTimes(before.joins?.overlap ?? [], after.joins?.overlap ?? [])),
  };
  return Object.keys(found).length === 0 ? [] : [{ from: before.name, to: after.name, ...found }];
}

/** Steps for other notes are other steps, also where their times are the same. */
function otherwiseTimes(a: readonly TimeStep[], b: readonly TimeStep[]): Otherwise<Times> | undefined {
  return (
    otherwise(a, b) && {
      from: a.map(({ is }) => formatDuration(is)),
      to: b.map(({ is }) => formatDuration(is)),
    }
  );
}

function otherwise<T>(from: T, to: T): Otherwise<T> | undefined {
  return JSON.stringify(from) === JSON.stringify(to) ? undefined : { from, to };
}

function filled<T>(list: readonly T[]): readonly T[] | undefined {
  return list.length === 0 ? undefined : list;
}

function some<K extends string, T>(key: K, value: T | undefined): { readonly [key in K]?: T } {
  return (value === undefined ? {} : { [key]: value }) as { readonly [key in K]?: T };
}
