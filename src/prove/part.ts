import type { ArticulationMap } from '../map/index.js';
import { type Clock, clockOf, type Part, type Song, type Track } from '../midi/index.js';
import type { MeantNote } from './expected-notes.js';
import { type Library, libraryOf } from './library.js';
import { type Complain, complainer } from './violations.js';

/** A part of a compiled file, and what it is meant to sound with. */
export interface ProvePart {
  readonly part: Part;
  readonly map: ArticulationMap;
  readonly meant: readonly MeantNote[];
  /**
   * Whether the notes stand where they were played. Only then can it be checked that switches are sent again after rests
   * and bars, since these are measured in the music as it was played. Not taken for granted.
   */
  readonly isAsPlayed?: boolean;
}

/** A part with everything that is asked of it again and again. */
export interface Stage extends ProvePart {
  readonly track: Track;
  readonly clock: Clock;
  readonly library: Library;
  /** The part's own channel and those on which its notes are meant to arrive, 0–15. */
  readonly channels: ReadonlySet<number>;
  /** The channels other than its own to which its controllers, bends and pressure go. */
  readonly copiedTo: readonly number[];
  readonly complain: Complain;
}

/** undefined where the song has no such track. */
export function stageOf(song: Song, proved: ProvePart): Stage | undefined {
  const { part, map, meant } = proved;
  const track = song.tracks[part.track - 1];
  if (!track) return undefined;
  const clock = clockOf(song, part.track);
  const library = libraryOf(map, part.channel);
  const meantOn = new Set(
    [...new Set(meant.map(({ articulation }) => articulation))].map(
      (name) => library.sounds.get(name)?.channel ?? part.channel,
    ),
  );
  return {
    ...proved,
    track,
    clock,
    library,
    channels: new Set([part.channel, ...meantOn]),
    copiedTo: [...meantOn].filter((channel) => channel !== part.channel).sort((a, b) => a - b),
    complain: complainer(part.track, clock),
  };
}
