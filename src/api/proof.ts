import { type CompiledPart, type CompiledParts, takeStored } from '../compile/index.js';
import type { Song } from '../midi/index.js';
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
function meantNotes({ retimed }: CompiledPart): MeantNotes {
  const meant = new MeantNotes(retimed.decisions.length);
  for (const { note, articulation } of inFileOrder(retimed.decisions)) {
    const { tick, pitch, onset } = note;
    meant.add({ tick, pitch, articulation, onset });
  }
  return meant;
}

function inFileOrder(decisions: CompiledPart['retimed']['decisions']): typeof decisions {
  let last = -1;
  const isInOrder = decisions.every(({ note }) => {
    const before = last;
    last = note.onIndex;
    return before <= last;
  });
  return isInOrder ? decisions : [...decisions].sort((a, b) => a.note.onIndex - b.note.onIndex);
}
