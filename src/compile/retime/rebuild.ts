import {
  arranged,
  type Events,
  indicesInOrder,
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
  const { length } = events;
  if (!moves.any) return { events, indices: new Uint32Array(length).map((_, index) => index) };
  const closing = isEndOfTrack(events, length - 1) ? length - 1 : -1;
  const ticks = new Float64Array(length);
  let latest = 0;
  for (let event = 0; event < length; event++) {
    const tick = moves.get(event) ?? tickOf(events, event);
    latest = Math.max(latest, tick);
    ticks[event] = event === closing ? latest : tick;
  }
  const ranks = ranksOf(events, moves, ticks, closing);
  const order = indicesInOrder(length, (one, other) => {
    const [tick, others] = [ticks[one] ?? 0, ticks[other] ?? 0];
    return tick < others || (tick === others && (ranks[one] ?? 0) < (ranks[other] ?? 0));
  });
  const indices = new Uint32Array(length);
  const newTicks = ticksUpTo(latest, length);
  for (let index = 0; index < length; index++) {
    const old = order[index] ?? 0;
    newTicks[index] = ticks[old] ?? 0;
    indices[old] = index;
  }
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
