import { type Events, isEndOfTrack, isNoteOff, lastAtMost, tickOf } from '../../midi/index.js';

/** A place in a track: a tick, and the index of the event before which something goes. */
export interface Spot {
  readonly tick: number;
  readonly before: number;
}

/** The index of the first event at or after a tick. */
export function firstEventAt({ ticks }: Events, tick: number): number {
  return lastAtMost(ticks, tick - 1) + 1;
}

/** The last place at which something can stand: before a closing end-of-track, else after everything. */
export function lastSpot(events: Events): Spot {
  const last = events.length - 1;
  return last >= 0 && isEndOfTrack(events, last)
    ? { tick: tickOf(events, last), before: last }
    : { tick: Number.POSITIVE_INFINITY, before: last + 1 };
}

/** The beginning of a tick, or the last spot where the track ends earlier. */
export function spotAtStartOf(events: Events, tick: number): Spot {
  const last = lastSpot(events);
  return tick > last.tick ? last : { tick, before: Math.min(firstEventAt(events, tick), last.before) };
}

/**
 * The place of a switch at a tick: behind the note-offs that stand there, before everything else, and before the
 * note with index `noteOn`.
 */
export function spotForSwitch(events: Events, tick: number, noteOn: number): Spot {
  let before = Math.min(firstEventAt(events, tick), noteOn);
  for (let index = before; index < noteOn && tickOf(events, index) === tick; index++)
    if (isNoteOff(events, index)) before = index + 1;
  return { tick, before };
}
