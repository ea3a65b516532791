import { type BarRange, barFinder, type Clock } from '../../midi/index.js';

/** A note with the bars that it sounds in, from and to; null for files without bars. */
export interface Placed {
  readonly pitch: number;
  /** Unit: ms. */
  readonly length: number;
  readonly from: number | null;
  readonly to: number | null;
}

/** Players begin a little early and end a little late: a note belongs to where it is this much inside. Unit: ms. Own choice. */
const inside = 50;

/** Notes with their bars. */
export function placed(
  notes: readonly { readonly pitch: number; readonly tick: number; readonly endTick: number }[],
  clock: Clock,
): readonly Placed[] {
  const [beginAt, endAt] = [barFinder(clock), barFinder(clock)];
  return notes.map(({ pitch, tick, endTick }) => {
    const [begin, end] = [clock.ms(tick), clock.ms(endTick)];
    const margin = Math.min(inside, (end - begin) / 2);
    const from = beginAt(clock.tickAt(begin + margin))?.bar ?? null;
    const to = endAt(clock.tickAt(end - margin))?.bar ?? null;
    return { pitch, length: end - begin, from, to };
  });
}

/** Successive bars of which something holds. */
export interface Run {
  readonly bars: BarRange | null;
  /** The notes of these bars of which it holds, by index. */
  readonly notes: readonly number[];
}

/** The notes that begin in one bar. */
interface Bar {
  readonly bar: number | null;
  to: number | null;
  length: number;
  holds: number;
  readonly notes: number[];
}

/**
 * Where something holds of the notes of a part: for more than half of their length in each of several successive bars.
 * A note counts where it begins, and its bars go on to where it ends. Files without bars count as one bar, long enough.
 *
 * @param notes in order of time
 * @param least the number of bars from which on it is told
 */
export function runsWhere(
  notes: readonly Placed[],
  holds: (note: Placed, index: number) => boolean,
  least: number,
): readonly Run[] {
  const runs: { from: number | null; to: number | null; notes: number[] }[] = [];
  let open: (typeof runs)[number] | undefined;
  for (const { bar, to, length, holds: part, notes: here } of barsWith(notes, holds)) {
    if (part * 2 <= length || part === 0) open = undefined;
    else if (open && bar !== null && bar <= (open.to ?? bar) + 1) {
      open.to = Math.max(open.to ?? bar, to ?? bar);
      for (const index of here) open.notes.push(index);
    } else {
      open = { from: bar, to, notes: [...here] };
      runs.push(open);
    }
  }
  return runs
    .filter(({ from, to }) => from === null || (to ?? from) - from + 1 >= least)
    .map(({ from, to, notes: of }) => ({ bars: from === null ? null : { from, to: to ?? from }, notes: of }));
}

function barsWith(notes: readonly Placed[], holds: (note: Placed, index: number) => boolean): readonly Bar[] {
  const bars = new Map<number | null, Bar>();
  notes.forEach((note, index) => {
    const bar = bars.get(note.from) ?? { bar: note.from, to: note.to, length: 0, holds: 0, notes: [] };
    bars.set(note.from, bar);
    bar.length += note.length;
    if (note.to !== null) bar.to = Math.max(bar.to ?? note.to, note.to);
    if (!holds(note, index)) return;
    bar.holds += note.length;
    bar.notes.push(index);
  });
  return [...bars.values()].sort((a, b) => (a.bar ?? 0) - (b.bar ?? 0));
}

/** Bars, in order, as ranges of successive ones. */
export function joinBars(bars: Iterable<number | null>): readonly BarRange[] {
  const ranges: { from: number; to: number }[] = [];
  for (const bar of bars) {
    if (bar === null) continue;
    const last = ranges.at(-1);
    if (last && bar <= last.to + 1) last.to = Math.max(last.to, bar);
    else ranges.push({ from: bar, to: bar });
  }
  return ranges;
}
