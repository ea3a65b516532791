import type { ArticulationMap } from '../../map/index.js';
import { groupOnsets, type Line, type PairedNote } from '../../midi/index.js';
import { type Controls, noControls } from './controls.js';
import { measure } from './measure.js';

/** Makes a line of paired notes: groups and measures them. `marksAt` gives the marks of each onset, by its tick. */
export function lineOf(
  about: Pick<Line, 'file' | 'part' | 'clock'>,
  notes: readonly PairedNote[],
  map: ArticulationMap,
  marksAt: (onsetTicks: readonly number[]) => readonly ReadonlySet<string>[],
  controls: Controls = noControls,
): Line {
  const groups = groupOnsets(notes, about.clock, map.chordWindow);
  const marks = marksAt(groups.map((group) => group[0]?.tick ?? 0));
  const onsets = measure(groups, marks, about.clock, controls, map.pedal === 'lengthens');
  return { ...about, notes: onsets.flatMap((onset) => onset.notes), onsets };
}
