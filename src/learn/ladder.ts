import type { Bound } from './bounds.js';
import type { Feature } from './features.js';
import type { LearnNotes } from './notes.js';

/** One condition: the value is at least `from` and less than `below`; null where that side is open. */
export interface Test {
  readonly feature: Feature;
  readonly from: Bound | null;
  readonly below: Bound | null;
}

/** What fits all its tests gets the articulation. */
export interface Rule {
  readonly tests: readonly Test[];
  /** Index into the notes' articulations. */
  readonly articulation: number;
}

/** Read from the top; the last rule has no tests. */
export type Ladder = readonly Rule[];

/** Whether a value fits a test; NaN fits none. */
export function fits({ from, below }: Test, value: number): boolean {
  if (Number.isNaN(value)) return false;
  return (from === null || value >= from.value) && (below === null || value < below.value);
}

/** Looks up the columns of features, each measured once. */
export function columnsOf(notes: LearnNotes): (feature: Feature) => Float64Array {
  const columns = new Map<Feature, Float64Array>();
  return (feature) => {
    const known = columns.get(feature);
    if (known) return known;
    const column = feature.column(notes);
    columns.set(feature, column);
    return column;
  };
}

/** The index of the rule that decides each row: the first that fits. */
export function decideRules(
  ladder: Ladder,
  length: number,
  columnOf: (feature: Feature) => Float64Array,
): Int32Array {
  const decided = new Int32Array(length).fill(-1);
  ladder.forEach(({ tests }, index) => {
    const columns = tests.map((test) => ({ test, column: columnOf(test.feature) }));
    for (let row = 0; row < length; row++) {
      if (decided[row] !== -1) continue;
      if (columns.every(({ test, column }) => fits(test, column[row] ?? Number.NaN))) decided[row] = index;
    }
  });
  return decided;
}

/** The articulation of each row. */
export function articulationsOf(ladder: Ladder, decided: Int32Array): Int32Array {
  return decided.map((rule) => ladder[rule]?.articulation ?? -1);
}
