// The same music by two maps: which notes change articulation.
import { compileParts, decideExample } from '../compile/index.js';
import { type Diagnostic, type Place, quoted } from '../diagnostics/index.js';
import type { ArticulationMap, Example } from '../map/index.js';
import type { Part, Song } from '../midi/index.js';
import { type ChangedNotes, changedNotes } from './changes.js';

export {
  type ComparedArticulations,
  compareArticulations,
  type Reswitched,
  type SentAs,
} from './articulations.js';
export type { ChangedNote, ChangedNotes, Decided, Verdict } from './changes.js';
export type { Differences, Otherwise, Times } from './differences.js';
export { type ChangeGroup, groupChanges } from './groups.js';
export { areVersions, type Becomes, becomesIn, isKept, likenessBetween } from './matching.js';
export { type Moved, type MovedNotes, movedNotes, type Outside } from './moved.js';
export {
  type AlteredNote,
  type BarShift,
  type ComparedTakes,
  compareTakes,
  type EventDifference,
  isOtherwise,
  type LoneNote,
  type NotePlace,
  type PartInTakes,
  type SentAspect,
  type Take,
  type TakenPart,
} from './takes/index.js';

/** Music that both maps decided: how many notes it has, and which of them change. */
export interface Compared {
  readonly notes: number;
  readonly changed: ChangedNotes;
}

/** A part of a recording. */
export interface ComparedPart extends Compared {
  /** The recording's name, for messages. */
  readonly file: string;
  readonly part: Part;
}

/** An example that is written in one of the maps, or in both. */
export interface ComparedExample extends Compared {
  readonly place: Place;
  /** Counted from 1 in its map. */
  readonly number: number;
}

/**
 * Decides parts of a recording by two maps, and says which notes get another articulation by the second. Articulations
 * are compared by name where the maps are of one library, by what they mean where they are of two. Diagnostics are those of compiling with either map; what only one map gives rise to says which.
 * Those that the second gives rise to, alone or with the first, stand by themselves too.
 */
export function compareMaps(
  song: Song,
  parts: readonly Part[],
  a: ArticulationMap,
  b: ArticulationMap,
): {
  readonly parts: readonly ComparedPart[];
  readonly diagnostics: readonly Diagnostic[];
  readonly ofB: readonly Diagnostic[];
} {
  const jobs = (map: ArticulationMap) => parts.map((part) => ({ part, map }));
  const byA = compileParts(song, jobs(a));
  const byB = compileParts(song, jobs(b));
  return {
    parts: byB.parts.flatMap((after, index): ComparedPart[] => {
      const before = byA.parts[index];
      if (!before) return [];
      const { part, line } = after;
      return [
        { file: song.file, part, notes: line.measures.notes.length, changed: changedNotes(before, after) },
      ];
    }),
    ...together({ map: a, diagnostics: byA.diagnostics }, { map: b, diagnostics: byB.diagnostics }),
  };
}

/** Decides the examples that are written in two maps, by both. One that stands in both is played once. */
export function compareExamples(a: ArticulationMap, b: ArticulationMap): readonly ComparedExample[] {
  const seen = new Set<string>();
  return [b, a].flatMap(({ examples }) =>
    examples.flatMap((example, index): ComparedExample[] => {
      const music = musicOf(example);
      if (seen.has(music)) return [];
      seen.add(music);
      const before = { map: a, ...decideExample(a, example) };
      const after = { map: b, ...decideExample(b, example) };
      const { place, notes } = example;
      return [{ place, number: index + 1, notes: notes.length, changed: changedNotes(before, after) }];
    }),
  );
}

/** What is played, whatever is expected of it. */
function musicOf({ notes, bpm }: Example): string {
  return JSON.stringify([notes, bpm]);
}

interface Found {
  readonly map: ArticulationMap;
  readonly diagnostics: readonly Diagnostic[];
}

/** What was found by both maps, once; then what was found by one of them. */
function together(
  a: Found,
  b: Found,
): { readonly diagnostics: readonly Diagnostic[]; readonly ofB: readonly Diagnostic[] } {
  const keys = ({ diagnostics }: Found) => new Set(diagnostics.map((one) => JSON.stringify(one)));
  const inA = keys(a);
  const inB = keys(b);
  const only = ({ map, diagnostics }: Found, others: ReadonlySet<string>) =>
    diagnostics
      .filter((one) => !others.has(JSON.stringify(one)))
      .map((one) => ({ ...one, message: `${one.message} (by ${quoted(map.file)})` }));
  const shared = a.diagnostics.filter((one) => inB.has(JSON.stringify(one)));
  const onlyB = only(b, inA);
  return { diagnostics: [...shared, ...only(a, inB), ...onlyB], ofB: [...shared, ...onlyB] };
}
