import type { ArticulationMap } from '../../map/index.js';
import type { Duration, Line, MeasuredNote } from '../../midi/index.js';
import type { TimingOptions } from '../../timing/index.js';
import type { Decision } from '../decide/index.js';

/** A part whose timing is to be changed. */
export interface RetimedPart {
  readonly line: Line;
  readonly decisions: readonly Decision[];
  readonly map: ArticulationMap;
  readonly options: TimingOptions;
  /** How long after its onset a compensated note is to be heard; at its onset, if absent. */
  readonly heardAfter?: (note: MeasuredNote) => Duration;
}

/** Where the notes of a part begin and end by now, in ticks, by the index of their decision. */
export interface Ticks {
  readonly starts: readonly number[];
  readonly ends: readonly number[];
}

/** The decisions of each onset, by index. */
export function byOnset({ line, decisions }: RetimedPart): readonly (readonly number[])[] {
  const groups: number[][] = line.onsets.map(() => []);
  decisions.forEach(({ note }, index) => void groups[note.onset]?.push(index));
  return groups;
}

/** The first start of each onset's notes, in ticks. */
export function firstStarts(part: RetimedPart, starts: readonly number[]): readonly number[] {
  return byOnset(part).map((group) =>
    group.reduce((least, index) => Math.min(least, starts[index] ?? 0), Number.POSITIVE_INFINITY),
  );
}

/** The last start of each onset's notes, in ticks. */
export function lastStarts(part: RetimedPart, starts: readonly number[]): readonly number[] {
  return byOnset(part).map((group) => group.reduce((most, index) => Math.max(most, starts[index] ?? 0), 0));
}
