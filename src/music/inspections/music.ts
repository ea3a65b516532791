import { type ArticulationMap, switchKeys } from '../../map/index.js';
import { clockOf, type Part, type Song } from '../../midi/index.js';
import { type Harmony, harmonyOf, isPitched, soundingNotes } from '../harmony/index.js';
import { type Register, registerOf } from '../register/index.js';
import { type Voicing, voicingOf } from '../voicing/index.js';
import { firstProgram } from './sections.js';

/** What sounds together, how it is laid out, and where each part lies. Numbers of parts are indices into `names`. */
export interface Music {
  readonly names: readonly string[];
  readonly harmony: readonly Harmony[];
  readonly voicings: readonly Voicing[];
  readonly registers: readonly Register[];
}

/**
 * Looks at parts as music that sounds together. Percussion is left out; in a file of format 2, whose tracks are pieces
 * of their own, all but the first of the tracks is.
 *
 * @param per how often harmony is told: as it is found to change, or for each beat or bar
 * @param mapOf the map of a part's library, where it is known: its range is looked at too, and its switch keys are no
 *   music
 */
export function musicOf(
  song: Song,
  parts: readonly Part[],
  per: 'found' | 'beat' | 'bar',
  mapOf: (part: Part) => ArticulationMap | undefined = () => undefined,
): Music {
  const [first] = parts;
  const together = parts.filter(
    (part) => isPitched(part) && (song.format !== 2 || part.track === first?.track),
  );
  const names = together.map(({ track, trackName }) => (trackName === '' ? `track ${track}` : trackName));
  const clock = clockOf(song, first?.track ?? 1);
  const keys = together.map((part) => switchKeysOf(mapOf(part)));
  const notes = soundingNotes(song, together).filter(({ part, pitch }) => !keys[part]?.has(pitch));
  const harmony = harmonyOf(notes, clock, { per });
  const described = together.map((part, index) => {
    const track = song.tracks[part.track - 1];
    const program = track && firstProgram(track, part.channel);
    const range = mapOf(part)?.range;
    return {
      name: names[index] ?? '',
      ...(program === undefined ? {} : { program }),
      ...(range ? { range } : {}),
    };
  });
  return {
    names,
    harmony,
    voicings: voicingOf(notes, harmony, clock),
    registers: registerOf(notes, described, clock),
  };
}

function switchKeysOf(map: ArticulationMap | undefined): ReadonlySet<number> {
  return new Set(map ? switchKeys(map).keys() : []);
}
