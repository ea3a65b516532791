import type { ArticulationMap } from '../../map/index.js';
import type { MeasuredNote, Notes } from '../../midi/index.js';
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
  /** The note of a row as it was played, to ask more of. */
  noteOf(row: number): MeasuredNote;
  /** Whether steadiness gave it another articulation than the plain ladder does. */
  isKept(row: number): boolean;
}

/** The same, with why each row was decided so. */
export interface Decided extends DecidedNotes {
  /** What was decided of a row, as an object; it is made whenever it is asked for. */
  decision(row: number): Decision;
}

/** What was decided, row after row; each is made when it is come to. */
export function* decisionsOf(decided: Decided): Generator<Decision> {
  for (let row = 0; row < decided.length; row++) yield decided.decision(row);
}

export function articulationOf({ names, articulation }: DecidedNotes, row: number): string {
  return names[articulation[row] ?? 0] ?? '';
}

/** What is asked of the articulation of a row; it is asked once for each articulation. */
export function byArticulation<T>(decided: DecidedNotes, ask: (name: string) => T): (row: number) => T {
  const answers = decided.names.map(ask);
  return (row) => answers[decided.articulation[row] ?? 0] ?? ask(articulationOf(decided, row));
}

/** What is asked of the articulation and the pitch of a row; it is asked once for each two of them. */
export function byArticulationAndPitch<T>(
  decided: DecidedNotes,
  ask: (name: string, pitch: number) => T,
): (row: number) => T | undefined {
  const asked = new Uint8Array(decided.names.length * 128);
  const answers: (T | undefined)[] = [];
  return (row) => {
    const pitch = decided.pitch[row] ?? 0;
    const at = (decided.articulation[row] ?? 0) * 128 + pitch;
    if (asked[at] === 0) {
      asked[at] = 1;
      answers[at] = ask(articulationOf(decided, row), pitch);
    }
    return answers[at];
  };
}

export function onsetOf({ onset }: DecidedNotes, row: number): number {
  return onset[row] ?? 0;
}

/** A map's articulations, numbered. */
export interface Numbered {
  readonly names: readonly string[];
  readonly numberOf: (name: string) => number;
  /** What each rule gives. */
  readonly ofRule: readonly number[];
}

export function numbered({ articulations, rules }: ArticulationMap): Numbered {
  const names = [...articulations.keys()];
  const numbers = new Map(names.map((name, number) => [name, number]));
  const numberOf = (name: string) => numbers.get(name) ?? 0;
  return { names, numberOf, ofRule: rules.map(({ use }) => numberOf(use)) };
}
