import {
  arranged,
  type Events,
  isEndOfTrack,
  isNoteOff,
  isNoteOn,
  type Track,
  tickOf,
  ticksUpTo,
  trackOf,
} from '../../midi/index.js';

/** A track with some events on other ticks, and where every event stands now. */
export interface Rebuilt {
  readonly track: Track;
  /** New index, by old index. */
  readonly indices: readonly number[];
}

/**
 * Puts events on new ticks. What is not moved keeps its order; at one tick moved note-offs come first and moved
 * note-ons last, but for the order of the note-ons among themselves, which stays. An end of track that closes the track stays behind everything.
 *
 * @param moves new ticks, by index; of note-ons and note-offs
 */
export function rebuild(track: Track, moves: ReadonlyMap<number, number>): Rebuilt {
  const { columns } = track;
  const order = Array.from({ length: columns.length }, (_, index) => index);
  if (moves.size === 0) return { track, indices: order };
  const last = columns.length - 1;
  const closing = isEndOfTrack(columns, last) ? last : -1;
  const ticks = Array.from(columns.ticks, (tick, index) => moves.get(index) ?? tick);
  if (closing >= 0) ticks[closing] = ticks.reduce((latest, tick) => Math.max(latest, tick), 0);
  const staying = lastStrikes(columns, moves);
  const rank = (index: number) => {
    if (index === closing) return 2;
    if (!moves.has(index)) return 0;
    if (isNoteOff(columns, index)) return -1;
    return index < (staying.get(ticks[index] ?? 0) ?? -1) ? 0 : 1;
  };
  order.sort((a, b) => (ticks[a] ?? 0) - (ticks[b] ?? 0) || rank(a) - rank(b) || a - b);
  const indices: number[] = new Array<number>(order.length).fill(0);
  const newTicks = ticksUpTo(ticks[order.at(-1) ?? 0] ?? 0, order.length);
  order.forEach((old, index) => {
    newTicks[index] = ticks[old] ?? 0;
    indices[old] = index;
  });
  return { track: trackOf(track.number, track.name, arranged(columns, order, newTicks)), indices };
}

/** The last note-on of each tick that is not moved, by index. */
function lastStrikes(events: Events, moves: ReadonlyMap<number, number>): ReadonlyMap<number, number> {
  const last = new Map<number, number>();
  for (let event = 0; event < events.length; event++)
    if (isNoteOn(events, event) && !moves.has(event)) last.set(tickOf(events, event), event);
  return last;
}
