import { analyse, byArticulation, decide, type MeasuredLine } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Part, Song } from '../../midi/index.js';
import { type Suggested, suggest } from '../suggest/index.js';
import { boundsOf, withBound } from './bounds.js';
import { columnsOf } from './columns.js';

/** How a part's lengths fall, and how the bounds of a map lie among them; other bounds are tried with the map itself. */
export function suggestFor(
  song: Song,
  part: Part,
  map: ArticulationMap,
): { readonly suggested: Suggested; readonly diagnostics: readonly Diagnostic[] } {
  const { line, diagnostics } = analyse(song, part, map);
  const names = [...map.articulations.keys()];
  const notes = columnsOf([{ name: '', line, chords: map.chords, labelOf: () => -1 }], names);
  const bounds = boundsOf(map, line.clock);
  const decided = (by: ArticulationMap) => articulationsOf(line, by, names);
  const suggested = suggest(notes, bounds, (moved) =>
    decided(moved ? withBound(map, moved.bound, moved.to, line.clock) : map),
  );
  return { suggested, diagnostics };
}

/** How a line's lengths fall, and how the bounds of a map lie among them; other bounds are not tried. */
export function lengthsOf(line: MeasuredLine, map: ArticulationMap): Suggested {
  const names = [...map.articulations.keys()];
  const notes = columnsOf([{ name: '', line, chords: map.chords, labelOf: () => -1 }], names);
  return suggest(notes, boundsOf(map, line.clock));
}

/** The articulation of each row, as `columnsOf` has them. */
function articulationsOf(line: MeasuredLine, map: ArticulationMap, names: readonly string[]): Int32Array {
  const { decided } = decide(line, map);
  const nameOf = byArticulation(decided, (name) => names.indexOf(name));
  const of = new Map(Array.from(decided.on, (onIndex, row) => [onIndex, nameOf(row)]));
  const rows = line.onsets.flatMap((onset) => (map.chords === 'top' ? [onset.top] : onset.notes));
  return Int32Array.from(rows, ({ onIndex }) => of.get(onIndex) ?? -1);
}
