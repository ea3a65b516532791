import { median } from '../../signal/index.js';

/** A measurement at a value (of a controller, a velocity) under circumstances (an articulation and a pitch). */
export interface Cell {
  readonly row: string;
  readonly value: number;
  readonly dB: number;
}

/**
 * The level of each value, were all circumstances measured at all values: median polish (Tukey 1977, Exploratory Data
 * Analysis), which takes circumstances that lack a value, and single wrong cells, for what they are. Circumstances are
 * compared only at values that several of them have: a value that one alone has says nothing of it.
 *
 * @returns by rising value; the mean over circumstances. Unit: dB
 */
export function levelsByValue(
  cells: readonly Cell[],
): readonly { readonly value: number; readonly dB: number }[] {
  const byValue = grouped(cells, ({ value }) => value);
  const byRow = grouped(cells, ({ row }) => row);
  const isShared = ({ value }: Cell) => (byValue.get(value)?.length ?? 0) > 1;
  const ofRow = new Map<string, number>();
  const ofValue = new Map<number, number>();
  for (let round = 0; round < rounds; round++) {
    for (const [row, own] of byRow) {
      const shared = own.filter(isShared);
      const compared = shared.length > 0 ? shared : own;
      ofRow.set(row, median(compared.map(({ value, dB }) => dB - (ofValue.get(value) ?? 0))));
    }
    for (const [value, own] of byValue)
      ofValue.set(value, median(own.map(({ row, dB }) => dB - (ofRow.get(row) ?? 0))));
  }
  const mean = [...ofRow.values()].reduce((sum, one) => sum + one, 0) / Math.max(1, ofRow.size);
  return [...ofValue].map(([value, dB]) => ({ value, dB: mean + dB })).sort((a, b) => a.value - b.value);
}

/** Measured tables settle in three or four. */
const rounds = 12;

function grouped<K>(cells: readonly Cell[], keyOf: (cell: Cell) => K): ReadonlyMap<K, readonly Cell[]> {
  const groups = new Map<K, Cell[]>();
  for (const cell of cells) {
    const group = groups.get(keyOf(cell));
    if (group) group.push(cell);
    else groups.set(keyOf(cell), [cell]);
  }
  return groups;
}
