import { type Diagnostic, diagnostic, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, byPitch, heldKeys, switchKeys, times } from '../../map/index.js';
import { isAtLeast, type Line, type MeasuredNote, musicPlace, noteTick, pitchOf } from '../../midi/index.js';
import { byArticulationAndPitch, type Decided } from '../decide/index.js';
import { sentPitch } from '../switching/index.js';

/** What a note does besides sounding. */
interface Acting {
  /** The key on which it is sent. */
  readonly sent: number;
  readonly what: string;
}

/**
 * note-is-switch: a note of the music would be sent on a switch key, or on the key of another articulation.
 * already-switched: notes look like the switches that this map sends (on its keys, of its velocity; no longer than its
 * tap, where keys latch).
 */
export function notesAsSwitches(line: Line, decided: Decided, map: ArticulationMap): readonly Diagnostic[] {
  const keys = switchKeys(map);
  const isKey = Uint8Array.from({ length: 128 }, (_, pitch) => (keys.has(pitch) ? 1 : 0));
  const onKeys: MeasuredNote[] = [];
  for (let row = 0; row < decided.length; row++)
    if (isKey[pitchOf(decided, row)] === 1) onKeys.push(decided.noteOf(row));
  const held = heldKeys(map);
  const [first] = onKeys;
  if (first && onKeys.every((note) => isLikeSwitch(note, line, map, held.has(note.pitch)))) {
    return [
      diagnostic(
        'already-switched',
        musicPlace(line, first.tick),
        `the part already contains switches of this map (${onKeys.length}, here first)`,
        'compile the recording, not a file that was compiled before',
      ),
    ];
  }
  const players = new Map(
    [...map.articulations.values()].flatMap(({ name, key }) => (key === undefined ? [] : [[key, name]])),
  );
  const actsAs = byArticulationAndPitch(decided, (name, pitch): Acting | undefined => {
    const articulation = map.articulations.get(name);
    const sent = sentPitch(map, articulation, pitch);
    const switched = keys.get(sent);
    if (switched) return { sent, what: `would act as the switch for ${switched.join(', ')}` };
    const player = players.get(sent);
    if (player === undefined || articulation?.key !== undefined) return undefined;
    return { sent, what: `would sound as ${player}, whose key it is` };
  });
  const acting: (Acting & { readonly tick: number; readonly pitch: number })[] = [];
  for (let row = 0; row < decided.length; row++) {
    const as = actsAs(row);
    if (as) acting.push({ ...as, tick: noteTick(decided, row), pitch: pitchOf(decided, row) });
  }
  return byPitch(acting).flatMap((notes): Diagnostic[] => {
    const [note] = notes;
    if (!note) return [];
    const spell = (pitch: number) => spellPitch(pitch, map.middleC);
    const sent = note.sent === note.pitch ? '' : `, sent as ${spell(note.sent)},`;
    return [
      diagnostic(
        'note-is-switch',
        musicPlace(line, note.tick),
        `the note ${spell(note.pitch)}${sent} (${times(notes.length)}) ${note.what}`,
        'move the note, or give the switch another key in the map and in the library',
      ),
    ];
  });
}

function isLikeSwitch(
  note: MeasuredNote,
  { clock }: Line,
  { switching }: ArticulationMap,
  isHeld: boolean,
): boolean {
  if (note.velocity !== switching.velocity) return false;
  if (isHeld) return true;
  const tick = clock.ms(1) - clock.ms(0);
  const shorter = { ms: note.held.ms - tick - 0.001, ticks: note.held.ticks - 1 };
  return note.held.ticks <= 1 || !isAtLeast(shorter, switching.tap, clock.ticksPerWhole);
}
