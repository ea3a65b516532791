import { arranged, type Track, ticksUpTo, trackOf } from '../../midi/index.js';

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
  if (moves.size === 0) return { track, indices: track.events.map((_, index) => index) };
  const last = track.events.length - 1;
  const closing = track.events[last]?.type === 'endOfTrack' ? last : -1;
  const ticks = track.ticks.map((tick, index) => moves.get(index) ?? tick);
  if (closing >= 0) ticks[closing] = ticks.reduce((latest, tick) => Math.max(latest, tick), 0);
  const staying = lastStrikes(track, moves);
  const rank = (index: number) => {
    if (index === closing) return 2;
    if (!moves.has(index)) return 0;
    if (track.events[index]?.type === 'noteOff') return -1;
    return index < (staying.get(ticks[index] ?? 0) ?? -1) ? 0 : 1;
  };
  const order = track.events
    .map((_, index) => index)
    .sort((a, b) => (ticks[a] ?? 0) - (ticks[b] ?? 0) || rank(a) - rank(b) || a - b);
  const indices: number[] = new Array<number>(order.length).fill(0);
  const newTicks = ticksUpTo(ticks[order.at(-1) ?? 0] ?? 0, order.length);
  order.forEach((old, index) => {
    newTicks[index] = ticks[old] ?? 0;
    indices[old] = index;
  });
  return { track: trackOf(track.number, track.name, arranged(track.columns, order, newTicks)), indices };
}

/** The last note-on of each tick that is not moved, by index. */
function lastStrikes(track: Track, moves: ReadonlyMap<number, number>): ReadonlyMap<number, number> {
  const last = new Map<number, number>();
  track.events.forEach((event, index) => {
    if (event.type === 'noteOn' && !moves.has(index)) last.set(track.ticks[index] ?? 0, index);
  });
  return last;
}
