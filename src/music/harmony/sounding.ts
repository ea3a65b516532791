import { noteEnd, noteTick, type Part, pairNotes, pitchOf, type Song, velocityOf } from '../../midi/index.js';
import { isUnpitched } from '../instruments/index.js';
import type { SoundingNote } from './types.js';

/** Channel 10 of General MIDI carries percussion, whatever its note numbers are. */
const percussionChannel = 9;

/** The notes of those parts that have pitches, in order of tick, then of pitch. */
export function soundingNotes(song: Song, parts: readonly Part[]): readonly SoundingNote[] {
  const notes = parts.flatMap((part, index) => {
    const track = song.tracks[part.track - 1];
    if (!track || !isPitched(part)) return [];
    const { notes: own } = pairNotes(track.columns, part.channel);
    return Array.from(
      { length: own.length },
      (_, note): SoundingNote => ({
        tick: noteTick(own, note),
        endTick: noteEnd(own, note),
        pitch: pitchOf(own, note),
        velocity: velocityOf(own, note),
        part: index,
      }),
    );
  });
  return notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch || a.part - b.part);
}

/** Whether a part's note numbers stand for pitches, as far as its channel and its name tell. */
export function isPitched({ channel, trackName }: Part): boolean {
  return channel !== percussionChannel && !isUnpitched(trackName);
}
