import { analyse, decide } from '../../compile/index.js';
import { type ArticulationMap, switchKeys } from '../../map/index.js';
import { type Clock, clockOf, type Part, type Song } from '../../midi/index.js';
import { type Harmony, harmonyOf, isPitched, type SoundingNote, soundingNotes } from '../harmony/index.js';
import type { RegisterPart } from '../register/index.js';
import type { BarBalance } from './bar-balance.js';
import { firstProgram, type Section, sectionOf } from './sections.js';
import { voiceOf } from './voices.js';

/** What inspections look at: parts that sound together. Numbers of parts are indices into `names` and `described`. */
export interface Music {
  readonly song: Song;
  /** All of them, percussion too. */
  readonly parts: readonly Part[];
  /** Those that have pitches, as they are told. */
  readonly names: readonly string[];
  /** What tells their instruments and ranges. */
  readonly described: readonly RegisterPart[];
  /** Theirs, in order of tick, then of pitch. */
  readonly notes: readonly SoundingNote[];
  readonly clock: Clock;
  readonly harmony: readonly Harmony[];
  /** Those that are sections of an orchestra. */
  readonly sections: readonly Section[];
  /** Their balance, where it is known already. */
  readonly balance?: readonly BarBalance[];
}

/**
 * Looks at parts as music that sounds together. Percussion is left out; in a file of format 2, whose tracks are pieces
 * of their own, all but the first of the tracks is.
 *
 * @param per how often harmony is told: as it is found to change, or for each beat or bar
 * @param mapOf the map of a part's library, where it is known: its range is looked at too, and its switch keys are no
 *   music
 * @param sections the sections of the orchestra, where more is known of them than of the parts alone
 */
export function musicOf(
  song: Song,
  parts: readonly Part[],
  per: 'found' | 'beat' | 'bar',
  mapOf: (part: Part) => ArticulationMap | undefined = () => undefined,
  sections: readonly Section[] = parts.flatMap((part) => sectionWith(song, part, mapOf(part))),
): Music {
  const [first] = parts;
  const together = parts.filter(
    (part) => isPitched(part) && (song.format !== 2 || part.track === first?.track),
  );
  const clock = clockOf(song, first?.track ?? 1);
  const keys = together.map((part) => switchKeysOf(mapOf(part)));
  const notes = soundingNotes(song, together).filter(({ part, pitch }) => !keys[part]?.has(pitch));
  const described = together.map((part) => describe(song, part, mapOf(part)));
  return {
    song,
    parts,
    names: described.map(({ name }) => name),
    described,
    notes,
    clock,
    harmony: harmonyOf(notes, clock, { per }),
    sections,
  };
}

/** The section that a part is, as its library plays it where that is known. */
function sectionWith(song: Song, part: Part, map: ArticulationMap | undefined): readonly Section[] {
  const track = song.tracks[part.track - 1];
  const section = track && sectionOf(track, part);
  if (!section || !map) return section ? [section] : [];
  const { line } = analyse(song, part, map);
  const players = map.players ?? section.players;
  return [{ ...section, players, voices: [voiceOf(part, map, decide(line, map).decided)] }];
}

function describe(song: Song, part: Part, map: ArticulationMap | undefined): RegisterPart {
  const track = song.tracks[part.track - 1];
  const program = track && firstProgram(track, part.channel);
  return {
    name: part.trackName === '' ? `track ${part.track}` : part.trackName,
    ...(program === undefined ? {} : { program }),
    ...(map ? { range: map.range } : {}),
  };
}

function switchKeysOf(map: ArticulationMap | undefined): ReadonlySet<number> {
  return new Set(map ? switchKeys(map).keys() : []);
}
