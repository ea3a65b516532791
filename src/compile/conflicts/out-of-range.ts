import { type Diagnostic, diagnostic, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, byPitch, switchKeys, times } from '../../map/index.js';
import { type Line, musicPlace } from '../../midi/index.js';

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
      diagnostic(
        'note-out-of-range',
        musicPlace(line, note.tick),
        `the note ${spellPitch(note.pitch, map.middleC)} (${times(notes.length)}) lies outside the range ${range}`,
        'it is kept, but the library may stay silent on it',
      ),
    ];
  });
}
