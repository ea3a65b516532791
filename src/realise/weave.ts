import type { MidiEvent, Track } from '../model/song.js';
import type { Insertion } from './insertion.js';

/**
 * Puts insertions into a track, and notes on the channels that they were sent to. Every event of the track stays in
 * its order and on its tick.
 *
 * @param channels the new channel (0–15) of events, by index
 */
export function weave(
  track: Track,
  insertions: readonly Insertion[],
  channels: ReadonlyMap<number, number>,
): readonly MidiEvent[] {
  const sorted = inOrder(insertions);
  const woven: MidiEvent[] = [];
  let next = 0;
  let tick = 0;
  track.events.forEach((event, index) => {
    for (let insertion = sorted[next]; insertion && insertion.before <= index; insertion = sorted[++next]) {
      woven.push({ ...insertion.event, deltaTime: insertion.tick - tick });
      tick = insertion.tick;
    }
    const eventTick = track.ticks[index] ?? tick;
    const deltaTime = eventTick - tick;
    const channel = channels.get(index);
    if (channel !== undefined && 'channel' in event) woven.push({ ...event, deltaTime, channel });
    else woven.push(deltaTime === event.deltaTime ? event : { ...event, deltaTime });
    tick = eventTick;
  });
  for (const { event, tick: at } of sorted.slice(next)) {
    woven.push({ ...event, deltaTime: at - tick });
    tick = at;
  }
  return woven;
}

/** By place, then tick, then rank; what is equal in all three keeps its order. */
function inOrder(insertions: readonly Insertion[]): readonly Insertion[] {
  return [...insertions].sort((a, b) => a.before - b.before || a.tick - b.tick || a.rank - b.rank);
}
