import type { Decision } from '../decide/index.js';
import type { RetimedPart, Ticks } from './state.js';

/**
 * Releases so that each is still its own note's: of one pitch a release ends the earliest open note, so releases keep
 * the order of the strikes, and a note that was released before its key was struck again still is. Only releases of
 * notes that were moved, or that stand beside one that was, change. Ticks, by decision.
 */
export function endsInOrder({ decisions }: RetimedPart, { starts, ends }: Ticks): readonly number[] {
  const settled = [...ends];
  for (const strikes of byPitch(decisions)) {
    cutAtRepeats(decisions, strikes, starts, settled);
    keepInOrder(decisions, strikes, starts, settled);
  }
  return settled;
}

/** A note that was released before its key was struck again ends by that strike, and so do those before it. */
function cutAtRepeats(
  decisions: readonly Decision[],
  strikes: readonly number[],
  starts: readonly number[],
  ends: number[],
): void {
  let limit = Number.POSITIVE_INFINITY;
  let next = -1;
  for (const index of [...strikes].reverse()) {
    if (isReleasedBefore(decisions[index], decisions[next])) limit = Math.min(limit, starts[next] ?? limit);
    ends[index] = Math.min(ends[index] ?? 0, limit);
    next = index;
  }
}

/** No release comes before that of an earlier strike, and none of a moved note with its own strike. */
function keepInOrder(
  decisions: readonly Decision[],
  strikes: readonly number[],
  starts: readonly number[],
  ends: number[],
): void {
  let latest = 0;
  for (const index of strikes) {
    const note = decisions[index]?.note;
    if (!note || note.offIndex < 0) continue;
    const start = starts[index] ?? 0;
    const end = Math.max(ends[index] ?? 0, latest);
    const hasMoved = start !== note.tick || end !== note.endTick;
    latest = hasMoved ? Math.max(end, start + 1) : end;
    ends[index] = latest;
  }
}

function isReleasedBefore(decision: Decision | undefined, next: Decision | undefined): boolean {
  if (!decision || !next) return false;
  return decision.note.endTick <= next.note.tick && decision.note.tick < next.note.tick;
}

/** The strikes of each pitch in order, as indices of decisions. */
function byPitch(decisions: readonly Decision[]): Iterable<readonly number[]> {
  const pitches = new Map<number, number[]>();
  decisions.forEach(({ note }, index) => {
    const others = pitches.get(note.pitch);
    if (others) others.push(index);
    else pitches.set(note.pitch, [index]);
  });
  return pitches.values();
}

/**
 * Releases that stay on a tick to which another of their pitch is moved, with that tick, by index in the track: what is
 * moved is put before what stays, and they must keep their order.
 */
export function besideMoved(
  decisions: readonly Decision[],
  ticks: Ticks | undefined,
  moves: ReadonlyMap<number, number>,
): ReadonlyMap<number, number> {
  const placeOf = ({ pitch }: { readonly pitch: number }, end: number) => end * 128 + pitch;
  const movedTo = new Set<number>();
  decisions.forEach(({ note }, index) => {
    if (moves.has(note.offIndex)) movedTo.add(placeOf(note, ticks?.ends[index] ?? note.endTick));
  });
  const found = new Map<number, number>();
  decisions.forEach(({ note }, index) => {
    const { offIndex, tick } = note;
    const end = ticks?.ends[index] ?? note.endTick;
    const isHeld = (ticks?.starts[index] ?? tick) < end;
    if (offIndex >= 0 && isHeld && movedTo.has(placeOf(note, end))) found.set(offIndex, end);
  });
  return found;
}
