import { type ArticulationMap, bindCondition, type Rule } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';

/** A map's rules, bound to a line. */
export interface Ladder {
  /** The first rule that fits the note, of those that pass the filter; undefined where none does. */
  first(note: MeasuredNote, filter?: (rule: Rule) => boolean): Rule | undefined;
}

/** The rules read from the top: the first that fits decides. A rule with marks and conditions needs both. */
export function bindLadder(map: ArticulationMap, line: Line): Ladder {
  const rungs = map.rules.map((rule) => {
    const when = rule.when ? bindCondition(rule.when, line) : undefined;
    const marked = rule.marked;
    const fits = (note: MeasuredNote) =>
      (marked === undefined || (note.marks.size > 0 && marked.some((mark) => note.marks.has(mark)))) &&
      (when === undefined || when(note));
    return { rule, fits };
  });
  return {
    first(note, filter) {
      for (const { rule, fits } of rungs) if ((!filter || filter(rule)) && fits(note)) return rule;
      return undefined;
    },
  };
}
