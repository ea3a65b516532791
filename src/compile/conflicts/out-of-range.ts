import { type Diagnostic, diagnostic, spellPitch, spellShift } from '../../diagnostics/index.js';
import { type ArticulationMap, byPitch, switchKeys, times } from '../../map/index.js';
import { type Line, musicPlace, noteTick, pitchOf } from '../../midi/index.js';
import { byArticulationAndPitch, type Decided } from '../decide/index.js';

/**
 * note-out-of-range: the library has no recording of a note. beyond-keys: there is no key to send it on. Notes on switch
 * keys are reported as such instead; of those that go out on their articulation's key the written pitch does not count.
 */
export function notesOutOfRange(line: Line, decided: Decided, map: ArticulationMap): readonly Diagnostic[] {
  const { low, high } = map.range;
  const { transpose } = map;
  const keys = switchKeys(map);
  const spell = (pitch: number) => spellPitch(pitch, map.middleC);
  const isOutside = byArticulationAndPitch(decided, (name, pitch) => {
    const sent = pitch + transpose;
    if (pitch >= low && pitch <= high && sent >= 0 && sent <= 127) return false;
    return map.articulations.get(name)?.key === undefined && !keys.has(sent);
  });
  const outside: { readonly pitch: number; readonly tick: number }[] = [];
  for (let row = 0; row < decided.length; row++)
    if (isOutside(row)) outside.push({ pitch: pitchOf(decided, row), tick: noteTick(decided, row) });
  return byPitch(outside).flatMap((notes): Diagnostic[] => {
    const [note] = notes;
    if (!note) return [];
    const sent = note.pitch + transpose;
    if (sent < 0 || sent > 127)
      return [
        diagnostic(
          'beyond-keys',
          musicPlace(line, note.tick),
          `the note ${spell(note.pitch)} (${times(notes.length)}) would be sent ${spellShift(transpose)}, where MIDI has no key`,
          'take the note out, or see that transpose is as in the manual',
        ),
      ];
    return [
      diagnostic(
        'note-out-of-range',
        musicPlace(line, note.tick),
        `the note ${spell(note.pitch)} (${times(notes.length)}) lies outside the range ${spell(low)} to ${spell(high)}`,
        'it is kept, but the library may stay silent on it',
      ),
    ];
  });
}
