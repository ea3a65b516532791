import type { Feature } from './features.js';
import { type Bins, layIntoBins } from './find/index.js';
import { columnsOf } from './ladder.js';
import type { LearnNotes } from './notes.js';

/** An articulation that sounds at fewer notes than this is not learned: any rule would fit it by chance. */
export const fewestNotes = 8;

/** Notes made ready to be learned from. */
export interface Material {
  readonly notes: LearnNotes;
  readonly columnOf: (feature: Feature) => Float64Array;
  readonly bins: Bins;
  readonly labels: Int32Array;
  /** What each row counts; 0 where its articulation is not known or not learned. */
  readonly weights: Float64Array;
  /** The articulations that can be learned. */
  readonly classes: readonly number[];
  readonly mostRules: number;
  /** Those that sound, but too seldom, with the number of their notes. */
  readonly few: readonly { readonly articulation: number; readonly notes: number }[];
}

/** What a mistake counts: as much at each note, or as much for each articulation however few notes it has. */
export type Weighing = 'notes' | 'articulations';

export function prepare(notes: LearnNotes, weigh: Weighing, mostRules: number): Material {
  const columnOf = columnsOf(notes);
  const base = { notes, columnOf, mostRules, bins: layIntoBins(notes, columnOf) };
  return withLabels(base, Int32Array.from(notes.label), weigh);
}

/** The same notes with other labels. */
export function withLabels(
  { notes, columnOf, bins, mostRules }: Pick<Material, 'notes' | 'columnOf' | 'bins' | 'mostRules'>,
  labels: Int32Array,
  weigh: Weighing,
): Material {
  const counts = new Map<number, number>();
  for (const label of labels) if (label >= 0) counts.set(label, (counts.get(label) ?? 0) + 1);
  const sounding = [...counts].sort(([a], [b]) => a - b);
  const enough = new Map(sounding.filter(([, count]) => count >= fewestNotes));
  const weights = Float64Array.from(labels, (label) => {
    const count = enough.get(label);
    if (count === undefined) return 0;
    return weigh === 'notes' ? 1 : 1 / count;
  });
  return {
    notes,
    columnOf,
    bins,
    labels,
    weights,
    classes: [...enough.keys()],
    mostRules,
    few: sounding
      .filter(([articulation]) => !enough.has(articulation))
      .map(([articulation, count]) => ({ articulation, notes: count })),
  };
}

/** The rows that count, of those that pass. */
export function countingRows(
  { weights }: Material,
  passes: (row: number) => boolean = () => true,
): Int32Array {
  const rows: number[] = [];
  for (let row = 0; row < weights.length; row++) if ((weights[row] ?? 0) > 0 && passes(row)) rows.push(row);
  return Int32Array.from(rows);
}
