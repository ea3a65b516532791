import type { ScoreMeasure } from '../model.js';

/** Endings that follow each other. */
export interface EndingGroup {
  readonly passes: readonly number[];
  /** The highest pass. */
  readonly last: number;
  /** How many endings. */
  readonly endings: number;
  /** Whether a repeat sign ends one of them. */
  readonly repeats: boolean;
}

/** The group of endings that each bar belongs to; null outside. */
export function endingGroups(measures: readonly ScoreMeasure[]): readonly (EndingGroup | null)[] {
  const groups: (EndingGroup | null)[] = [];
  for (let from = 0; from < measures.length; ) {
    let to = from;
    while (measures[to]?.ending) to += 1;
    if (to === from) {
      groups.push(null);
      from += 1;
      continue;
    }
    const run = measures.slice(from, to);
    const group = groupOf(run);
    groups.push(...run.map(() => group));
    from = to;
  }
  return groups;
}

function groupOf(run: readonly ScoreMeasure[]): EndingGroup {
  const passes = [...new Set(run.flatMap(({ ending }) => ending ?? []))];
  return {
    passes,
    last: Math.max(...passes),
    endings: new Set(run.map(({ ending }) => (ending ?? []).join())).size,
    repeats: run.some(({ repeatTo }) => repeatTo),
  };
}
