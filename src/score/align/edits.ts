import type { Performance, PlayedPart } from '../play/index.js';
import { type Point, rising } from './rising.js';

/** A text to be written into a take. */
export interface Edit {
  /** Counted from 1 in file order. */
  readonly track: number;
  readonly tick: number;
  readonly text: string;
}

/** A played note that a written one is. */
export interface Found {
  readonly part: PlayedPart;
  /** Of the score. */
  readonly scoreTick: number;
  readonly track: number;
  readonly takeTick: number;
}

/** A mark whose note was not found. */
export interface LostMark {
  readonly text: string;
  readonly part: PlayedPart;
  readonly scoreTick: number;
}

export interface Edits {
  readonly edits: readonly Edit[];
  readonly lost: readonly LostMark[];
}

const ofOneOnset = /^\[.*!\]$/u;

/**
 * A part's texts at the ticks at which the take plays them. A mark of one onset stands at the earliest of that onset's
 * notes, in every track that has one of them; where none was found it is lost, since it would mark another. What holds
 * from its place on stands at the first note that follows it, or where the tempo around it leads.
 */
export function editsOf(part: PlayedPart, found: readonly Found[], tracks: readonly number[]): Edits {
  const mine = found.filter((one) => one.part === part);
  const edits: Edit[] = [];
  const lost: LostMark[] = [];
  const byTick = earliest(mine);
  const points = new Map(tracks.map((track) => [track, pointsOf(mine, track)]));
  for (const { tick, text } of part.texts) {
    if (ofOneOnset.test(text)) {
      const here = byTick.get(tick);
      if (here) for (const [track, takeTick] of here) edits.push({ track, tick: takeTick, text });
      else lost.push({ text, part, scoreTick: tick });
      continue;
    }
    for (const track of tracks) {
      const line = points.get(track) ?? [];
      if (line.length > 0) edits.push({ track, tick: Math.max(0, Math.round(rising(line)(tick))), text });
    }
  }
  return { edits, lost };
}

/** The earliest note of each onset in each track. */
function earliest(found: readonly Found[]): ReadonlyMap<number, ReadonlyMap<number, number>> {
  const byTick = new Map<number, Map<number, number>>();
  for (const { scoreTick, track, takeTick } of found) {
    const tracks = byTick.get(scoreTick) ?? new Map<number, number>();
    byTick.set(scoreTick, tracks);
    tracks.set(track, Math.min(takeTick, tracks.get(track) ?? Number.POSITIVE_INFINITY));
  }
  return byTick;
}

function pointsOf(found: readonly Found[], track: number): readonly Point[] {
  return found.flatMap((one) => (one.track === track ? [{ from: one.scoreTick, to: one.takeTick }] : []));
}

/** Index of the bar in which a tick of a score lies. */
export function barIndexAt({ bars }: Performance, tick: number): number {
  let low = 0;
  let high = bars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((bars[middle]?.tick ?? 0) <= tick) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}
