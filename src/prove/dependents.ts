import type { Clock } from '../midi/index.js';
import type { HeardNote } from './heard-note.js';

/** Bars from which playback starts alike. */
export interface BarRange {
  /** The first and the last bar, from 1. */
  readonly from: number;
  readonly to: number;
  /** How many notes sound wrong when playback starts at the line of one of these bars, until the next switches. */
  readonly wrongNotes: number;
}

/** A note that sounds as meant only if playback started no later than a tick. */
export interface Dependent {
  readonly tick: number;
  /** The tick of the earliest key switch that it depends on. */
  readonly since: number;
}

/** The notes that depend on key switches. Those that sound wrong in any case are violations of their own. */
export function dependents(notes: readonly HeardNote[]): readonly Dependent[] {
  return notes.flatMap(({ tick, keys, isSelected, hiddenBy }) =>
    isSelected && hiddenBy === undefined && keys.length > 0
      ? [{ tick, since: Math.min(...keys.map((key) => key.tick)) }]
      : [],
  );
}

/**
 * For each bar, how many notes sound wrong when playback starts at its line. A sequencer then sends controllers, banks
 * and programs again, but no keys: no key is latched, and none is down that was struck before. So a note sounds wrong
 * from every bar line behind one of its switches, up to the note. Bars from which all is right are left out.
 *
 * @returns in order of bars, neighbours of the same count joined; nothing where the file has no bars
 */
export function wrongFromBars(notes: readonly Dependent[], clock: Clock): readonly BarRange[] {
  const steps = new Map<number, number>();
  const step = (bar: number, by: number) => steps.set(bar, (steps.get(bar) ?? 0) + by);
  for (const { tick, since } of notes) {
    const switched = clock.position(since)?.bar;
    const struck = clock.position(tick)?.bar;
    if (switched === undefined || struck === undefined || switched >= struck) continue;
    step(switched + 1, 1);
    step(struck + 1, -1);
  }
  const ranges: BarRange[] = [];
  const bars = [...steps].filter(([, by]) => by !== 0).sort(([a], [b]) => a - b);
  let wrongNotes = 0;
  bars.forEach(([bar, by], index) => {
    wrongNotes += by;
    const next = bars[index + 1];
    if (wrongNotes > 0 && next) ranges.push({ from: bar, to: next[0] - 1, wrongNotes });
  });
  return ranges;
}

/** How many bars ranges have. */
export function barsIn(ranges: readonly BarRange[]): number {
  return ranges.reduce((sum, { from, to }) => sum + to - from + 1, 0);
}
