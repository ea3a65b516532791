import type { Diagnostic } from '../../diagnostics/index.js';
import { spellPitch } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { byPitch, switchKeys, times } from '../../map/index.js';
import type { Line } from '../../midi/index.js';
import { musicPlace } from '../../midi/index.js';

/** note-out-of-range: the library has no recording of a note. Notes on switch keys are reported as such instead. */
export function notesOutOfRange(line: Line, map: ArticulationMap): readonly Diagnostic[] {
  const { low, high } = map.range;
  const keys = switchKeys(map);
  const outside = line.notes.filter(({ pitch }) => (pitch < low || pitch > high) && !keys.has(pitch));
  return byPitch(outside).flatMap((notes): Diagnostic[] => {
    const [note] = notes;
    if (!note) return [];
    const range = `${spellPitch(low, map.middleC)} to ${spellPitch(high, map.middleC)}`;
    return [
      {
        code: 'note-out-of-range',
        severity: 'warning',
        place: musicPlace(line, note.tick),
        message: `the note ${spellPitch(note.pitch, map.middleC)} (${times(notes.length)}) lies outside the range ${range}`,
        hint: 'it is kept, but the library may stay silent on it',
      },
    ];
  });
}
