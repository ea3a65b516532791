import { lastAtMost, type Track } from '../../midi/index.js';

/** A place in a track: a tick, and the index of the event before which something goes. */
export interface Spot {
  readonly tick: number;
  readonly before: number;
}

/** The index of the first event at or after a tick. */
export function firstEventAt(track: Track, tick: number): number {
  return lastAtMost(track.ticks, tick - 1) + 1;
}

/** The last place at which something can stand: before a closing end-of-track, else after everything. */
export function lastSpot(track: Track): Spot {
  const last = track.events.length - 1;
  const isClosed = track.events[last]?.type === 'endOfTrack';
  return isClosed
    ? { tick: track.ticks[last] ?? 0, before: last }
    : { tick: Number.POSITIVE_INFINITY, before: last + 1 };
}

/** The beginning of a tick, or the last spot where the track ends earlier. */
export function spotAtStartOf(track: Track, tick: number): Spot {
  const last = lastSpot(track);
  return tick > last.tick ? last : { tick, before: Math.min(firstEventAt(track, tick), last.before) };
}

/**
 * The place of a switch at a tick: behind the note-offs that stand there, before everything else, and before the
 * note with index `noteOn`.
 */
export function spotForSwitch(track: Track, tick: number, noteOn: number): Spot {
  let before = Math.min(firstEventAt(track, tick), noteOn);
  for (let index = before; index < noteOn && track.ticks[index] === tick; index++)
    if (track.events[index]?.type === 'noteOff') before = index + 1;
  return { tick, before };
}
