import { type Job, withPreroll } from '../compile/index.js';
import { type Diagnostic, diagnostic, type Outcome, quoted } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Part, Song } from '../midi/index.js';
import { partsFor } from './tracks.js';
import type { Cue, CuePart } from './types.js';

/** A part of a cue with what it names: the map, and the notes of the source, by channel. */
export interface PlacedPart {
  readonly wanted: CuePart;
  readonly map: ArticulationMap;
  readonly parts: readonly Part[];
}

/** A job, and the part of the cue that it is of. */
export interface CueJob extends Job {
  readonly name: string;
  /** Where it is a layer of that part. */
  readonly layer?: string;
  /** The channel of the part's notes that a layer doubles, 0–15; it may have another itself. */
  readonly doublesChannel?: number;
  /** Which notes of the part's line a layer doubles: their indices. */
  readonly doubles?: ReadonlySet<number>;
  /** What of its level brings its measured library to the others. Unit: dB. */
  readonly broughtBy?: number;
}

/** The music that a cue compiles, and how. */
export interface PlannedCue {
  /** The source with the cue's controllers and layers in it, but no switches yet. */
  readonly song: Song;
  /** Another song where every track moved; else `song`. */
  readonly original: Song;
  readonly jobs: readonly CueJob[];
}

/** The parts of a cue found in its source. Diagnostics: unknown-track, no-notes, several-channels, part-taken. */
export function placeParts(
  cue: Cue,
  song: Song,
  maps: ReadonlyMap<string, ArticulationMap>,
): { readonly placed: readonly PlacedPart[]; readonly diagnostics: readonly Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  const takenBy = new Map<string, string>();
  const placed = cue.parts.flatMap((wanted): PlacedPart[] => {
    const { value: parts = [], diagnostics: found } = partsFor(song, wanted);
    diagnostics.push(...found);
    const clash = parts.find(({ track, channel }) => takenBy.has(`${track} ${channel}`));
    if (clash) diagnostics.push(taken(wanted, clash, takenBy));
    for (const { track, channel } of parts) takenBy.set(`${track} ${channel}`, wanted.name);
    const map = maps.get(wanted.map.text);
    return map && parts.length > 0 ? [{ wanted, map, parts }] : [];
  });
  return { placed, diagnostics };
}

function taken(
  { name, trackPlace: place }: CuePart,
  { track, channel }: Part,
  takenBy: ReadonlyMap<string, string>,
): Diagnostic {
  const other = takenBy.get(`${track} ${channel}`) ?? '';
  return diagnostic(
    'part-taken',
    place,
    `${quoted(name)} and ${quoted(other)} are both the notes of track ${track}, channel ${channel + 1}`,
    'a second library on the same notes is a layer of the part',
  );
}

/** The song with the cue's empty bars before it. */
export function prerolled(cue: Cue, song: Song): Outcome<Song> {
  if (cue.preroll === 0) return { value: song, diagnostics: [] };
  const moved = withPreroll(song, cue.preroll);
  if (moved) return { value: moved, diagnostics: [] };
  const found: Diagnostic = diagnostic(
    'fraction-without-beats',
    cue.source.place,
    'preroll needs bars, and this file counts SMPTE frames instead',
    'take preroll out, and leave room in the recording',
  );
  return { value: undefined, diagnostics: [found] };
}
