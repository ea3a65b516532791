import { lastWithin } from '../../midi/index.js';
import type { EngravedSystem } from '../engrave/index.js';
import type { NotatedBar, Notation } from '../notate/index.js';

/** Half the width of a note's head: a staff space is 180 units, a black head 1.18 of them (SMuFL, font metadata). */
export const halfHead = 106;

/** Where ticks stand in a system, and which it has. */
export interface Columns {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
  /** The middle of a note that begins at this tick; between notes evenly. Ticks outside are at the ends. */
  readonly xAt: (tick: number) => number;
}

/** The columns of a system, from the notes and rests in it. */
export function columnsOf(
  { places, staves }: EngravedSystem,
  bars: readonly NotatedBar[],
  positions: Notation['positions'],
): Columns {
  const drawn = staves[0]?.bars ?? [];
  const found = new Map<number, number>();
  const add = (tick: number, x: number) => found.set(tick, Math.min(x, found.get(tick) ?? x));
  for (const [id, { x }] of places) {
    const tick = positions.get(id);
    if (tick !== undefined) add(tick, x + halfHead);
  }
  const from = bars[0]?.tick ?? 0;
  const to = bars.at(-1)?.endTick ?? from;
  bars.forEach(({ tick }, index) => {
    if (!found.has(tick)) add(tick, (drawn[index]?.left ?? 0) + 4 * halfHead);
  });
  const right = drawn.at(-1)?.right ?? 0;
  const columns = rising([...found.entries(), [to, right]]);
  return { from, to, left: drawn[0]?.left ?? 0, right, xAt: (tick) => between(columns, tick) };
}

type Column = readonly [tick: number, x: number];

/** In order, without those that would lead back to the left. */
function rising(columns: readonly Column[]): readonly Column[] {
  const kept: Column[] = [];
  for (const column of [...columns].sort(([a], [b]) => a - b)) {
    const before = kept.at(-1);
    if (!before || column[1] > before[1]) kept.push(column);
  }
  return kept;
}

function between(columns: readonly Column[], tick: number): number {
  const low = Math.max(
    0,
    lastWithin(columns.length, (index) => columns[index]?.[0] ?? 0, tick),
  );
  const [tick0, x0] = columns[low] ?? [0, 0];
  const [tick1, x1] = columns[low + 1] ?? [tick0, x0];
  if (tick <= tick0 || tick1 === tick0) return x0;
  return x0 + ((Math.min(tick, tick1) - tick0) / (tick1 - tick0)) * (x1 - x0);
}
