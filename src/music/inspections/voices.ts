import type { CompiledPart, Decision } from '../../compile/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Part, Song, Track } from '../../midi/index.js';
import type { Voice } from '../balance/index.js';
import { type Section, sectionOf } from './sections.js';

/** A compiled part, or a layer of one, as far as the balance needs to know it. */
export interface VoiceJob {
  readonly compiled: Pick<CompiledPart, 'part' | 'map'> & {
    readonly retimed: Pick<CompiledPart['retimed'], 'decisions'>;
  } & Partial<Pick<CompiledPart, 'decisions' | 'playersOf'>>;
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
  decisions: readonly Pick<Decision, 'note' | 'articulation'>[],
  track?: Track,
): Voice {
  return {
    part,
    map,
    articulations: new Map(decisions.map(({ note, articulation }) => [note.onIndex, articulation])),
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
    const voices = [base, ...jobs.filter((job) => doubles(job, base))].map(({ compiled, broughtBy }) => ({
      ...voiceOf(compiled.part, compiled.map, compiled.retimed.decisions, tracks.get(compiled.part.track)),
      ...sharesOf(compiled),
      ...(broughtBy === undefined ? {} : { broughtBy }),
    }));
    const players = map.players ?? section.players;
    return [{ ...section, name: base.name, players, voices }];
  });
}

/** What share of a divided part plays each note. */
function sharesOf({ playersOf, decisions = [], retimed }: VoiceJob['compiled']): Pick<Voice, 'shares'> {
  if (!playersOf) return {};
  const shares = decisions.map(({ note }, index) => {
    const { playing, of } = playersOf(note);
    return [retimed.decisions[index]?.note.onIndex ?? -1, playing / of] as const;
  });
  return { shares: new Map(shares) };
}

/** Whether a job is a layer of another. */
function doubles({ layer, name, doublesChannel, compiled }: VoiceJob, base: VoiceJob): boolean {
  const channel = doublesChannel ?? compiled.part.channel;
  return layer !== undefined && name === base.name && channel === base.compiled.part.channel;
}
