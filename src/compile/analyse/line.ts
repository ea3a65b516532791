import type { ArticulationMap } from '../../map/index.js';
import { type Clock, type Line, type PairedNote, struckTogether } from '../../midi/index.js';
import { type Controls, noControls } from './controls.js';
import { measure } from './measure.js';

/** An onset this much before a mark is at it, but no more than half of its pace. Unit: ms. */
const markReach = 60;

/**
 * Makes a line of paired notes: groups and measures them.
 *
 * @param marksAt gives the marks of each onset, by the tick up to which marks are at it: a mark stands where it is
 *   written, a note where it was played
 */
export function lineOf(
  about: Pick<Line, 'file' | 'part' | 'clock'>,
  notes: readonly PairedNote[],
  map: ArticulationMap,
  marksAt: (reaches: readonly number[]) => readonly ReadonlySet<string>[],
  controls: Controls = noControls,
): Line {
  const groups = struckTogether(notes, about.clock, map.chordWindow);
  const reaches = groups.map((group, index) => reachOf(group, groups[index + 1], about.clock));
  const marks = marksAt(reaches);
  const onsets = measure(groups, marks, about.clock, controls, map.pedal === 'lengthens');
  return { ...about, notes: onsets.flatMap((onset) => onset.notes), onsets };
}

function reachOf(
  group: readonly PairedNote[],
  next: readonly PairedNote[] | undefined,
  clock: Clock,
): number {
  const [first] = group;
  if (!first) return 0;
  const begins = clock.ms(first.tick);
  const top = group.reduce((highest, note) => (note.pitch > highest.pitch ? note : highest), first);
  const pace = clock.ms(next?.[0]?.tick ?? top.endTick) - begins;
  return Math.max(first.tick, clock.tickAt(begins + Math.min(markReach, pace / 2)));
}
