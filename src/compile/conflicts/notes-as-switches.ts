import { type Diagnostic, diagnostic, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, byPitch, switchKeys, times } from '../../map/index.js';
import { isAtLeast, type Line, type MeasuredNote, musicPlace } from '../../midi/index.js';

/**
 * note-is-switch: a note of the music lies on a switch key. already-switched: such notes look like the switches
 * that this map sends (its velocity; no longer than its tap, where keys latch).
 */
export function notesAsSwitches(line: Line, map: ArticulationMap): readonly Diagnostic[] {
  const keys = switchKeys(map);
  const onKeys = line.notes.filter((note) => keys.has(note.pitch));
  const sent = onKeys.filter((note) => isLikeSwitch(note, line, map));
  const [first] = sent;
  if (first && sent.length === onKeys.length) {
    return [
      diagnostic(
        'already-switched',
        musicPlace(line, first.tick),
        `the part already contains switches of this map (${onKeys.length}, here first)`,
        'compile the recording, not a file that was compiled before',
      ),
    ];
  }
  return byPitch(onKeys).flatMap((notes): Diagnostic[] => {
    const [note] = notes;
    if (!note) return [];
    const key = spellPitch(note.pitch, map.middleC);
    return [
      diagnostic(
        'note-is-switch',
        musicPlace(line, note.tick),
        `the note ${key} (${times(notes.length)}) would act as the switch for ${(keys.get(note.pitch) ?? []).join(', ')}`,
        'move the note, or give the switch another key in the map and in the library',
      ),
    ];
  });
}

function isLikeSwitch(note: MeasuredNote, { clock }: Line, { switching }: ArticulationMap): boolean {
  if (note.velocity !== switching.velocity) return false;
  if (switching.notes === 'momentary') return true;
  const tick = clock.ms(1) - clock.ms(0);
  const shorter = { ms: note.held.ms - tick - 0.001, ticks: note.held.ticks - 1 };
  return note.held.ticks <= 1 || !isAtLeast(shorter, switching.tap, clock.ticksPerWhole);
}
