import { barFinder, type Clock } from '../../midi/index.js';

/** The line at or before a tick, and the next one behind it. */
export interface Cell {
  readonly from: number;
  readonly to: number;
}

/** Lines of the metre; gives the cell in which a tick stands. Longer than a tick, however short the beat is. */
export type Grid = (tick: number) => Cell;

/** What stands for a beat where a file has none: half a second, that is a quarter note at 120 bpm. */
const beatMsWithoutMetre = 500;
const beatsPerBarWithoutMetre = 4;

/** The beats of the time signature. */
export function beatGrid(clock: Clock): Grid {
  return kept((tick) => {
    const at = clock.position(tick);
    const from = at && clock.barStart(at.bar, at.beat);
    const to = at && clock.barStart(at.bar, at.beat + 1);
    return from === null || to === null ? evenCell(tick, unitTicks(clock)) : { from, to };
  });
}

export function barGrid(clock: Clock): Grid {
  const barAt = barFinder(clock);
  return kept((tick) => {
    const bar = barAt(tick);
    return bar ? { from: bar.from, to: bar.to } : evenCell(tick, unitTicks(clock) * beatsPerBarWithoutMetre);
  });
}

/** The same grid, which looks first into the cell of the tick before: ticks mostly come in order. */
function kept(grid: Grid): Grid {
  let cell: Cell = { from: 0, to: 0 };
  return (tick) => {
    if (tick < cell.from || tick >= cell.to) cell = grid(tick);
    return cell;
  };
}

/** Whether a tick is the start of a beat. */
export function isBeat(clock: Clock): (tick: number) => boolean {
  const beats = beatGrid(clock);
  return (tick) => beats(tick).from === tick;
}

/** Where a harmony may begin: on beats, and on their halves where a beat is a quarter note or longer. */
export function changeGrid(clock: Clock): Grid {
  return halved(beatGrid(clock), unitTicks(clock));
}

/** The same cells in halves, where they are `least` ticks long or longer. */
export function halved(grid: Grid, least = 2): Grid {
  return (tick) => {
    const { from, to } = grid(tick);
    if (to - from < Math.max(2, least)) return { from, to };
    const middle = Math.floor((from + to) / 2);
    return tick < middle ? { from, to: middle } : { from: middle, to };
  };
}

/** Bar and beat, the beat with its fraction: 2.5 is half way through the second. */
export interface Place {
  readonly bar: number;
  readonly beat: number;
}

/** Where ticks stand; null where there are no bars. */
export function placesIn(clock: Clock): (tick: number) => Place | null {
  const beats = beatGrid(clock);
  return (tick) => {
    const at = clock.position(tick);
    if (!at) return null;
    const { from, to } = beats(tick);
    return { bar: at.bar, beat: at.beat + Math.round(((tick - from) / (to - from)) * 100) / 100 };
  };
}

/** The ticks of a quarter note, by which lengths are weighed; of half a second where there are none. */
export function unitTicks(clock: Clock): number {
  return clock.ticksPerWhole === null
    ? Math.max(1, clock.tickAt(beatMsWithoutMetre))
    : clock.ticksPerWhole / 4;
}

function evenCell(tick: number, step: number): Cell {
  const from = Math.floor(tick / step) * step;
  return { from, to: from + step };
}
