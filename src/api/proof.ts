import {
  articulationOf,
  type CompiledPart,
  type CompiledParts,
  type DecidedNotes,
  onsetOf,
  takeStored,
} from '../compile/index.js';
import { noteTick, onOf, pitchOf, type Song } from '../midi/index.js';
import { MeantNotes, type Proof, prove } from '../prove/index.js';

/**
 * Proves an output against the parts that it was, or should have been, compiled from. What either says that it was
 * compiled with is no music, and is passed over.
 *
 * @param song the music as it was played (after a preroll, if there was one)
 * @param isCompared whether nothing of the music may be missing or changed in the output
 */
export function proofOf(
  output: Song,
  song: Song,
  { parts, tracks }: Pick<CompiledParts, 'parts' | 'tracks'>,
  isCompared: boolean,
): Proof {
  const moved = { ...song, tracks: song.tracks.map((track) => tracks.get(track.number) ?? track) };
  return prove({
    output: takeStored(output).song,
    ...(isCompared ? { input: takeStored(moved).song } : {}),
    parts: parts.map((one) => ({
      part: one.part,
      map: one.map,
      meant: meantNotes(one),
      isAsPlayed: isCompared && one.timing === undefined,
    })),
  });
}

/** What each note is meant to sound with, in file order of the note-ons. */
function meantNotes({ retimed: { decided } }: CompiledPart): MeantNotes {
  const meant = new MeantNotes(decided.length);
  for (const row of inFileOrder(decided)) {
    const [tick, pitch, onset] = [noteTick(decided, row), pitchOf(decided, row), onsetOf(decided, row)];
    meant.add({ tick, pitch, articulation: articulationOf(decided, row), onset });
  }
  return meant;
}

/** The rows by their note-ons, which timing may have put into another order. */
function inFileOrder(decided: DecidedNotes): Uint32Array {
  const rows = new Uint32Array(decided.length);
  let isInOrder = true;
  for (let row = 0; row < rows.length; row++) {
    rows[row] = row;
    isInOrder &&= row === 0 || onOf(decided, row - 1) <= onOf(decided, row);
  }
  return isInOrder ? rows : rows.sort((a, b) => onOf(decided, a) - onOf(decided, b) || a - b);
}
