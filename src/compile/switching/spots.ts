import { type Events, finder, isEndOfTrack, isNoteOff, tickOf } from '../../midi/index.js';

/** A place in a track: a tick, and the index of the event before which something goes. */
export interface Spot {
  readonly tick: number;
  readonly before: number;
}

/** Places in a track; quickest where they are asked for in order. */
export interface Spots {
  /** The last place at which something can stand: before a closing end-of-track, else after everything. */
  readonly last: Spot;
  /** The beginning of a tick, or the last spot where the track ends earlier. */
  atStartOf(tick: number): Spot;
  /**
   * The place of a switch at a tick: behind the note-offs that stand there, before everything else, and before the
   * note with index `noteOn`.
   */
  forSwitch(tick: number, noteOn: number): Spot;
}

export function spotsOf(events: Events): Spots {
  const last = lastSpot(events);
  const [starts, switches] = [finder(events.ticks), finder(events.ticks)];
  return {
    last,
    atStartOf: (tick) =>
      tick > last.tick ? last : { tick, before: Math.min(starts(tick - 1) + 1, last.before) },
    forSwitch(tick, noteOn) {
      let before = Math.min(switches(tick - 1) + 1, noteOn);
      for (let index = before; index < noteOn && tickOf(events, index) === tick; index++)
        if (isNoteOff(events, index)) before = index + 1;
      return { tick, before };
    },
  };
}

function lastSpot(events: Events): Spot {
  const last = events.length - 1;
  return last >= 0 && isEndOfTrack(events, last)
    ? { tick: tickOf(events, last), before: last }
    : { tick: Number.POSITIVE_INFINITY, before: last + 1 };
}
