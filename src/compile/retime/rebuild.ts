import {
  arranged,
  type Events,
  isEndOfTrack,
  isNoteOff,
  isNoteOn,
  tickOf,
  ticksUpTo,
} from '../../midi/index.js';
import type { EventMoves } from './event-moves.js';

/** Events some of which are on other ticks, and where every event stands now. */
export interface Rebuilt {
  readonly events: Events;
  /** New index, by old index. */
  readonly indices: Uint32Array;
}

/**
 * Puts events on new ticks. What is not moved keeps its order; at one tick moved note-offs come first and moved
 * note-ons last, but for the order of the note-ons among themselves, which stays. An end of track that closes the track stays behind everything.
 *
 * @param moves of note-ons and note-offs
 */
export function rebuild(events: Events, moves: EventMoves): Rebuilt {
  const order = Uint32Array.from({ length: events.length }, (_, index) => index);
  if (!moves.any) return { events, indices: order };
  const last = events.length - 1;
  const closing = isEndOfTrack(events, last) ? last : -1;
  const ticks = Float64Array.from(events.ticks, (tick, index) => moves.get(index) ?? tick);
  if (closing >= 0) ticks[closing] = ticks.reduce((latest, tick) => Math.max(latest, tick), 0);
  const ranks = ranksOf(events, moves, ticks, closing);
  order.sort((a, b) => (ticks[a] ?? 0) - (ticks[b] ?? 0) || (ranks[a] ?? 0) - (ranks[b] ?? 0) || a - b);
  const indices = new Uint32Array(order.length);
  const newTicks = ticksUpTo(ticks[order.at(-1) ?? 0] ?? 0, order.length);
  order.forEach((old, index) => {
    newTicks[index] = ticks[old] ?? 0;
    indices[old] = index;
  });
  return { events: arranged(events, order, newTicks), indices };
}

/** What comes first on one tick: the lower. */
function ranksOf(events: Events, moves: EventMoves, ticks: Float64Array, closing: number): Int8Array {
  const staying = lastStrikes(events, moves);
  const ranks = new Int8Array(events.length);
  for (let event = 0; event < events.length; event++) {
    if (event === closing) ranks[event] = 2;
    else if (!moves.has(event)) ranks[event] = 0;
    else if (isNoteOff(events, event)) ranks[event] = -1;
    else ranks[event] = event < (staying.get(ticks[event] ?? 0) ?? -1) ? 0 : 1;
  }
  return ranks;
}

/** The last note-on of each tick that is not moved, by index. */
function lastStrikes(events: Events, moves: EventMoves): ReadonlyMap<number, number> {
  const last = new Map<number, number>();
  for (let event = 0; event < events.length; event++)
    if (isNoteOn(events, event) && !moves.has(event)) last.set(tickOf(events, event), event);
  return last;
}
