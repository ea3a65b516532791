import { spellPitch } from '../diagnose/pitch.js';
import { musicPlace } from '../diagnose/place.js';
import type { Diagnostic } from '../model/diagnostic.js';
import type { Line } from '../model/line.js';
import type { ArticulationMap } from '../model/map.js';
import { byPitch, switchKeys, times } from './keys.js';

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
