import type { Articulation, ArticulationMap, Rule } from '../../map/index.js';
import type { MeasuredNote } from '../../midi/index.js';
import type { Ladder } from './ladder.js';

/** The articulation that a mark chooses by itself, and the mark. */
export interface MarkedChoice {
  readonly articulation: string;
  readonly mark: string;
}

/** The articulation whose name the note is marked with; the latest mark counts. */
export function namedByMark(note: MeasuredNote, map: ArticulationMap): MarkedChoice | undefined {
  if (note.marks.size === 0) return undefined;
  const mark = [...note.marks].reverse().find((name) => map.articulations.has(name));
  return mark === undefined ? undefined : { articulation: mark, mark };
}

/** Finds what a note's marks mean in this map. */
export type MeantByMark = (note: MeasuredNote, ladder: Ladder, previous?: string) => MarkedChoice | undefined;

/**
 * The articulation that `means` one of the note's marks, for marks that no rule of the map asks for. Where several
 * mean the same mark, the ladder chooses among them, else the first in the map is taken.
 */
export function bindMeanings(map: ArticulationMap): MeantByMark {
  const askedFor = new Set(map.rules.flatMap((rule) => rule.marked ?? []));
  const meaning = new Map<string, Articulation[]>();
  for (const articulation of map.articulations.values())
    for (const mark of articulation.means)
      if (!askedFor.has(mark)) meaning.set(mark, [...(meaning.get(mark) ?? []), articulation]);
  return (note, ladder, previous) => {
    for (const mark of [...note.marks].reverse()) {
      const candidates = meaning.get(mark);
      const [first] = candidates ?? [];
      if (!candidates || !first) continue;
      const isCandidate = (rule: Rule) => candidates.some(({ name }) => name === rule.use);
      const chosen = candidates.length > 1 ? ladder.first(note, previous, isCandidate)?.use : undefined;
      return { articulation: chosen ?? first.name, mark };
    }
    return undefined;
  };
}
