import { articulationOf, type CompiledPart, type DecidedNotes } from '../../compile/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { onOf, type Part, type Song, type Track } from '../../midi/index.js';
import type { Voice } from '../balance/index.js';
import { type Section, sectionOf } from './sections.js';

/** A compiled part, or a layer of one, as far as the balance needs to know it. */
export interface VoiceJob {
  readonly compiled: Pick<CompiledPart, 'part' | 'map'> & {
    readonly retimed: Pick<CompiledPart['retimed'], 'decided'>;
  } & Partial<Pick<CompiledPart, 'decided' | 'playersOf'>>;
  /** Whether the note of a row is looked at; all are, if absent. */
  readonly isWithin?: ((row: number) => boolean) | undefined;
  /** The name of the part. */
  readonly name: string;
  /** Where it is a layer of the part of that name. */
  readonly layer?: string;
  /** The channel of the part's notes that a layer doubles, 0–15; its own, if absent. */
  readonly doublesChannel?: number;
  /** What of its level brings its measured library to the others. Unit: dB. */
  readonly broughtBy?: number;
}

/** A part as a library plays it. */
export function voiceOf(
  part: Part,
  map: ArticulationMap,
  decided: DecidedNotes,
  track?: Track,
  isWithin?: (row: number) => boolean,
): Voice {
  const articulations = new Map<number, string>();
  for (const row of rowsWithin(decided, isWithin))
    articulations.set(onOf(decided, row), articulationOf(decided, row));
  return {
    part,
    map,
    articulations,
    ...(track ? { track } : {}),
    ...(map.players === undefined ? {} : { players: map.players }),
  };
}

/**
 * The sections of the orchestra that compiled parts are, by track, else by the instrument of the map, each with the layers
 * that double it. Percussion is none.
 *
 * @param tracks tracks whose notes stand elsewhere than in the song, by number
 */
export function sectionsOfJobs(
  song: Song,
  tracks: ReadonlyMap<number, Track>,
  jobs: readonly VoiceJob[],
): readonly Section[] {
  const bases = jobs.filter(({ layer }) => layer === undefined);
  return bases.flatMap((base): readonly Section[] => {
    const { part, map } = base.compiled;
    const track = song.tracks[part.track - 1];
    if (!track || map.family === 'percussion') return [];
    const section = sectionOf(track, part) ?? sectionOf({ ...track, name: map.instrument }, part);
    if (!section) return [];
    const voices = [base, ...jobs.filter((job) => doubles(job, base))].map((job) => {
      const { compiled, isWithin, broughtBy } = job;
      const { part, map, retimed } = compiled;
      return {
        ...voiceOf(part, map, retimed.decided, tracks.get(part.track), isWithin),
        ...sharesOf(job),
        ...(broughtBy === undefined ? {} : { broughtBy }),
      };
    });
    const players = map.players ?? section.players;
    return [{ ...section, name: base.name, players, voices }];
  });
}

/** What share of a divided part plays each note. */
function sharesOf({ compiled, isWithin }: VoiceJob): Pick<Voice, 'shares'> {
  const { playersOf, decided, retimed } = compiled;
  if (!playersOf || !decided) return {};
  const shares = new Map<number, number>();
  for (const row of rowsWithin(decided, isWithin)) {
    const { playing, of } = playersOf(decided.noteOf(row));
    shares.set(onOf(retimed.decided, row), playing / of);
  }
  return { shares };
}

function rowsWithin(
  { length }: DecidedNotes,
  isWithin: (row: number) => boolean = () => true,
): readonly number[] {
  return Array.from({ length }, (_, row) => row).filter(isWithin);
}

/** Whether a job is a layer of another. */
function doubles({ layer, name, doublesChannel, compiled }: VoiceJob, base: VoiceJob): boolean {
  const channel = doublesChannel ?? compiled.part.channel;
  return layer !== undefined && name === base.name && channel === base.compiled.part.channel;
}
