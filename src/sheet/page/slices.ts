import { lastAtMost } from '../../midi/index.js';
import type { NotatedBar, Notation } from '../notate/index.js';
import type { SheetNote, SheetPart, SheetSwitch } from '../types.js';
import { type Run, runsOf } from './runs.js';

/** What a part has in one system. */
export interface Slice {
  readonly notes: readonly SheetNote[];
  readonly switches: readonly SheetSwitch[];
  /** Those that have something of it. */
  readonly runs: readonly Run[];
}

/**
 * The notes and switches of a part, system by system. A note is in the system in which it is written, which may be
 * another than where it was played; a switch is where it is sent, or in the next system that has the part's staff.
 *
 * @param hasStaff whether a system has the part's staff
 */
export function slicesOf(
  part: SheetPart,
  bars: readonly NotatedBar[],
  positions: Notation['positions'],
  hasStaff: (system: number) => boolean = () => true,
): readonly Slice[] {
  const { notes, switches } = part;
  const starts = bars
    .filter(({ system }, index) => bars[index - 1]?.system !== system)
    .map(({ tick }) => tick);
  const slices = starts.map(() => ({
    notes: [] as SheetNote[],
    switches: [] as SheetSwitch[],
    runs: [] as Run[],
  }));
  const systemAt = (tick: number) => Math.max(0, lastAtMost(starts, tick));
  for (const note of notes) slices[systemAt(positions.get(note.id) ?? note.tick)]?.notes.push(note);
  const shownFrom = (system: number) => {
    let at = system;
    while (at < starts.length && !hasStaff(at)) at += 1;
    return at;
  };
  for (const one of switches) slices[shownFrom(systemAt(one.tick))]?.switches.push(one);
  for (const run of runsOf(part))
    for (let at = systemAt(run.from); at <= systemAt(Math.max(run.from, run.to - 1)); at++)
      slices[at]?.runs.push(run);
  return slices;
}
