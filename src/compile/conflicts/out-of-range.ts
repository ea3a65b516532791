import { spellPitch } from '../../diagnostics/pitch.js';
import { musicPlace } from '../../midi/location.js';
import type { Diagnostic } from '../../diagnostics/diagnostic.js';
import type { Line } from '../../midi/line.js';
import type { ArticulationMap } from '../../map/types.js';
import { byPitch, switchKeys, times } from '../../map/switch-keys.js';

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
