import {
  analyse,
  bindSpeaksAfter,
  type CompiledParts,
  compileParts,
  type Job,
  type Stored,
} from '../compile/index.js';
import { arranged, onOf, type Song, type Track, tickAfter, ticksUpTo, trackOf } from '../midi/index.js';
import { heardIn } from '../prove/index.js';
import { asPlayed } from '../timing/index.js';

/** Music and what is to be done with it. */
interface Music {
  readonly song: Song;
  readonly jobs: readonly Job[];
}

/** A compensated file's music with its notes where they are heard. */
export interface AsHeard extends Music {
  /** The parts with their notes where they stand in the file, decided as they are heard. */
  readonly decided: CompiledParts;
}

/**
 * The music of a file that says it was compiled with `--compensate`, where it is heard: each note as late as the
 * articulation that the library is heard to have takes to speak, so that it is decided as it was before it was moved.
 * Undefined for other files. What was pulled, rolled, loosened or joined stays so: nothing tells where it stood.
 *
 * @param music the file's music without its switches
 */
export function asHeard(
  output: Song,
  { song, jobs }: Music,
  stored: Stored | undefined,
): AsHeard | undefined {
  if (!jobs.some(({ part }) => stored?.timingOf(part)?.compensate)) return undefined;
  const tracks = [...song.tracks];
  const origins = new Map<number, readonly number[]>();
  const late = jobs.map((job): Job => {
    if (!stored?.timingOf(job.part)?.compensate) return job;
    const number = job.part.track;
    const sent = output.tracks[number - 1];
    const track = tracks[number - 1];
    if (!sent || !track) return job;
    const before = origins.get(number);
    const { track: moved, from } = movedLater(track, momentsOf(sent, { ...song, tracks }, job));
    tracks[number - 1] = moved;
    origins.set(
      number,
      from.map((index) => before?.[index] ?? index),
    );
    return { ...job, timing: { ...asPlayed, compensate: true } };
  });
  const heard = { song: { ...song, tracks }, jobs: late };
  const again = compileParts(heard.song, jobs);
  const plain = compileParts(song, jobs);
  return {
    ...heard,
    decided: { ...plain, parts: plain.parts.map((part) => decidedAs(part, again, origins)) },
  };
}

/** When each note of a part is heard, by the indices of its note-ons. */
function momentsOf(sent: Track, song: Song, { part, map }: Job): ReadonlyMap<number, number> {
  const { line } = analyse(song, part, map);
  const names = heardIn(sent, part, map);
  const speaksAfter = bindSpeaksAfter(map, line);
  const inOrder = [...line.notes].sort((a, b) => a.onIndex - b.onIndex);
  const moments = inOrder.flatMap((note, ordinal) => {
    const articulation = names[ordinal];
    if (articulation === undefined) return [];
    const late = speaksAfter({ note, articulation });
    return [[note.onIndex, Math.min(note.endTick - 1, tickAfter(line.clock, note.tick, late))] as const];
  });
  return new Map(moments);
}

/** A track with some note-ons later, behind what else is at their tick; and the index that each event had. */
function movedLater(
  track: Track,
  moments: ReadonlyMap<number, number>,
): { readonly track: Track; readonly from: readonly number[] } {
  const { columns } = track;
  const timed = Array.from(columns.ticks, (stood, index) => {
    return { index, tick: Math.max(stood, moments.get(index) ?? stood), isNote: moments.has(index) };
  });
  timed.sort((a, b) => a.tick - b.tick || Number(a.isNote) - Number(b.isNote) || a.index - b.index);
  const ticks = ticksUpTo(timed.at(-1)?.tick ?? 0, timed.length);
  timed.forEach(({ tick }, at) => {
    ticks[at] = tick;
  });
  const from = timed.map(({ index }) => index);
  return { track: trackOf(track.number, track.name, arranged(columns, from, ticks)), from };
}

/** A part with its notes where they stand, and the articulations that they have where they are heard. */
function decidedAs(
  one: CompiledParts['parts'][number],
  again: CompiledParts,
  origins: ReadonlyMap<number, readonly number[]>,
): CompiledParts['parts'][number] {
  const { track, channel } = one.part;
  const from = origins.get(track);
  const other = again.parts.find(({ part }) => part.track === track && part.channel === channel);
  const { decided } = one.retimed;
  if (!other) return one;
  const rows = new Map(
    Array.from(other.decided.on, (onIndex, row) => [from?.[onIndex] ?? onIndex, row] as const),
  );
  // The same map decided both, so that an articulation has one number.
  const articulation = decided.articulation.slice();
  for (let row = 0; row < decided.length; row++) {
    const heard = rows.get(onOf(decided, row));
    if (heard !== undefined) articulation[row] = other.decided.articulation[heard] ?? 0;
  }
  return { ...one, retimed: { ...one.retimed, decided: { ...decided, articulation } } };
}
