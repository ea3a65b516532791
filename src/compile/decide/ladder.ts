import { type ArticulationMap, bindCondition, type Rule } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';

/** A map's rules, bound to a line. */
export interface Ladder {
  /** The first rule that fits the note behind what the onset before was given, of those that pass the filter. */
  first(note: MeasuredNote, previous?: string, filter?: (rule: Rule) => boolean): Rule | undefined;
  /** The same for a note that carries no marks, which is quicker. */
  firstUnmarked(note: MeasuredNote, previous?: string): Rule | undefined;
}

/** The rules read from the top: the first that fits decides. A rule with marks and conditions needs both. */
export function bindLadder(map: ArticulationMap, line: Line): Ladder {
  const all = map.rules.map((rule) => ({
    rule,
    marked: rule.marked,
    when: rule.when ? bindCondition(rule.when, line) : () => true,
  }));
  const unmarked = all.filter(({ marked }) => marked === undefined);
  return {
    first(note, previous, filter) {
      const { marks } = note;
      for (const { rule, marked, when } of all) {
        if (filter && !filter(rule)) continue;
        if (marked?.some((mark) => marks.has(mark)) === false) continue;
        if (when(note, previous)) return rule;
      }
      return undefined;
    },
    firstUnmarked(note, previous) {
      for (let at = 0; at < unmarked.length; at++) {
        const rung = unmarked[at];
        if (rung?.when(note, previous)) return rung.rule;
      }
      return undefined;
    },
  };
}
