import { clipFile } from '../clip/index.js';
import { articulationOf, type Compiled, type CompiledPart } from '../compile/index.js';
import type { Outcome } from '../diagnostics/index.js';
import { type DecidedNote, meaningsOfNotes } from '../map/index.js';
import { onOf, partsOf, type Song } from '../midi/index.js';

/**
 * What was compiled, as a clip: every part of the music, with the notes where they stand now; those that were decided
 * carry their articulations in place of switches.
 */
export function clipOf(song: Song, { parts, tracks }: Compiled): Outcome<Uint8Array> {
  const music = { ...song, tracks: song.tracks.map((track) => tracks.get(track.number) ?? track) };
  const sounding = music.tracks.flatMap(partsOf).map(({ track, trackName, channel }) => {
    const compiled = parts.find(({ part }) => part.track === track && part.channel === channel);
    const meanings = compiled && meaningsOfNotes(decidedNow(compiled), compiled.map.articulations);
    return { name: trackName, track, channel, meaningOf: (onIndex: number) => meanings?.get(onIndex) };
  });
  return clipFile(music, sounding);
}

/** What was decided, by the notes as they stand now. */
function* decidedNow({ decided, retimed }: CompiledPart): Iterable<DecidedNote> {
  for (let row = 0; row < decided.length; row++)
    yield {
      note: { onIndex: onOf(retimed.decided, row), marks: decided.noteOf(row).marks },
      articulation: articulationOf(decided, row),
    };
}
