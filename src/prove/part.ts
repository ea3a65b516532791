import type { ArticulationMap } from '../map/index.js';
import { type Clock, clockOf, type Events, type Part, type Song } from '../midi/index.js';
import { type Library, libraryOf, type Sound } from './library.js';
import type { MeantNotes } from './meant-notes.js';
import { type Complain, complainer } from './violations.js';

/** A part of a compiled file, and what it is meant to sound with. */
export interface ProvePart {
  readonly part: Part;
  readonly map: ArticulationMap;
  readonly meant: MeantNotes;
  /**
   * Whether the notes stand where they were played. Only then can it be checked that switches are sent again after rests
   * and bars, since these are measured in the music as it was played. Not taken for granted.
   */
  readonly isAsPlayed?: boolean;
}

/** A part with everything that is asked of it again and again. */
export interface Stage extends ProvePart {
  /** Those of the track in the compiled file. */
  readonly events: Events;
  readonly clock: Clock;
  readonly library: Library;
  /** The articulations of `meant` as the library knows them; undefined where it does not have one. */
  readonly sounds: readonly (Sound | undefined)[];
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
  const sounds = meant.articulations.map((name) => library.sounds.get(name));
  const meantOn = new Set(sounds.map((sound) => sound?.channel ?? part.channel));
  return {
    ...proved,
    events: track.columns,
    clock,
    library,
    sounds,
    channels: new Set([part.channel, ...meantOn]),
    copiedTo: [...meantOn].filter((channel) => channel !== part.channel).sort((a, b) => a - b),
    complain: complainer(part.track, clock),
  };
}
