import { type Diagnostic, diagnostic, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, byPitch, times } from '../../map/index.js';
import { type Line, musicPlace, noteTick } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { SentNotes } from '../switching/index.js';

/**
 * shared-key: notes go out on a key that another note of another pitch still holds. A library pairs the first release on
 * a key with its earliest note, so that they may not end as they were played.
 *
 * @param shared indices of decisions
 */
export function sharedKeys(
  line: Line,
  decided: DecidedNotes,
  map: ArticulationMap,
  sent: SentNotes,
  shared: readonly number[],
): readonly Diagnostic[] {
  const onKeys = shared.flatMap((row) => {
    const key = sent.at(row);
    return key ? [{ tick: noteTick(decided, row), pitch: key.pitch }] : [];
  });
  return byPitch(onKeys).flatMap((notes): Diagnostic[] => {
    const [note] = notes;
    if (!note) return [];
    return [
      diagnostic(
        'shared-key',
        musicPlace(line, note.tick),
        `a note goes out on ${spellPitch(note.pitch, map.middleC)} (${times(notes.length)}) while another holds that key`,
        'the library ends the earlier of them first, whichever is released; shorten one of them in the recording if it matters',
      ),
    ];
  });
}
