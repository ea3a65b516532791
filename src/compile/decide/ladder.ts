import { type ArticulationMap, bindCondition, type Rule } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';

/** A map's rules, bound to a line. */
export interface Ladder {
  /** The first rule that fits the note behind what the onset before was given, of those that pass the filter. */
  first(note: MeasuredNote, previous?: string, filter?: (rule: Rule) => boolean): Rule | undefined;
}

/** The rules read from the top: the first that fits decides. A rule with marks and conditions needs both. */
export function bindLadder(map: ArticulationMap, line: Line): Ladder {
  const rungs = map.rules.map((rule) => {
    const when = rule.when ? bindCondition(rule.when, line) : undefined;
    const marked = rule.marked;
    const fits = (note: MeasuredNote, previous?: string) =>
      (marked === undefined || (note.marks.size > 0 && marked.some((mark) => note.marks.has(mark)))) &&
      (when === undefined || when(note, previous));
    return { rule, fits };
  });
  return {
    first(note, previous, filter) {
      for (const { rule, fits } of rungs) if ((!filter || filter(rule)) && fits(note, previous)) return rule;
      return undefined;
    },
  };
}
