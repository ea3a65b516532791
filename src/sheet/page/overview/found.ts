import { levelOfVelocity } from '../../../dynamics/index.js';
import { lastWithin } from '../../../midi/index.js';
import type { NotatedBar } from '../../notate/index.js';
import type { Sheet, SheetNote, SheetPart } from '../../types.js';

/** What a part does in a bar, or in several that stand in one column. */
export interface Cell {
  /** The loudest that it plays, on the scale of marks: 0 for ppp, 7 for fff. */
  readonly level: number;
  readonly hasTune: boolean;
}

/** A piece at a glance: bars in columns, all of one width. */
export interface Overview {
  /** The number of the first bar. */
  readonly first: number;
  /** How many bars there are. */
  readonly bars: number;
  /** How many bars a column has; the last may have fewer. */
  readonly each: number;
  /** For each part of the sheet its cells by columns, with nothing where it rests. */
  readonly rows: readonly (readonly (Cell | undefined)[])[];
}

/** There are no more columns than this. */
const most = 120;

/** What a part does in which bars: by the balance, where it has the part; else by velocity or curve. */
export function overviewOf(
  { parts, balance, clock }: Pick<Sheet, 'parts' | 'balance' | 'clock'>,
  bars: readonly NotatedBar[],
): Overview {
  const [start, end] = [bars[0], bars.at(-1)];
  const first = start?.bar ?? 1;
  const count = end ? end.bar + end.bars - first : 0;
  const each = Math.max(1, Math.ceil(count / most));
  const columns = Math.ceil(count / each);
  const columnOf = (bar: number) => Math.floor((bar - first) / each);
  const said = saidOf(balance, columnOf);
  const rows = parts.map((part) => {
    const row: (Cell | undefined)[] = Array(columns).fill(undefined);
    for (const note of part.notes) {
      const begins = note.place?.bar ?? clock.position(note.tick)?.bar ?? first;
      const held = clock.position(clock.tickAt(clock.ms(note.endTick) - dragging))?.bar ?? begins;
      const level = levelOf(part, note);
      const last = Math.min(columns - 1, columnOf(Math.max(begins, held)));
      for (let at = Math.max(0, columnOf(begins)); at <= last; at++) {
        const known = row[at]?.level ?? Number.NEGATIVE_INFINITY;
        row[at] = { level: Math.max(known, level), hasTune: false };
      }
    }
    return row.map((cell, at) => cell && (said.get(part.name)?.get(at) ?? cell));
  });
  return { first, bars: count, each, rows };
}

/** A note that drags by less than this over a bar line is not heard in the bar behind it, as in the balance. Unit: ms. */
const dragging = 100;

/** What the balance says of sections, by their names and columns. */
function saidOf(
  balance: Sheet['balance'],
  columnOf: (bar: number) => number,
): ReadonlyMap<string, ReadonlyMap<number, Cell>> {
  const said = new Map<string, Map<number, Cell>>();
  for (const { bar, sections } of balance)
    for (const { name, level, role } of sections) {
      const of = said.get(name) ?? new Map<number, Cell>();
      said.set(name, of);
      const known = of.get(columnOf(bar));
      of.set(columnOf(bar), {
        level: Math.max(level, known?.level ?? level),
        hasTune: role === 'melody' || known?.hasTune === true,
      });
    }
  return said;
}

/** How loud a note begins, read as it is recorded: by its velocity, or the curve that is in force. */
function levelOf({ curve }: SheetPart, { isStruck, velocity, tick }: SheetNote): number {
  if (isStruck || !curve) return levelOfVelocity(velocity);
  const { points } = curve;
  const at = lastWithin(points.length, (index) => points[index]?.tick ?? 0, tick);
  return levelOfVelocity(points[at]?.value ?? velocity);
}
