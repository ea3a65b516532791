import type { MidiEvent, Track } from '../../midi/index.js';
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
  const sorted = inOrder(insertions, track.events.length);
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

/**
 * By place, then tick, then rank; what is equal in all three keeps its order. Places are counted rather than compared,
 * because most hold one insertion.
 *
 * @param end the last place that there is
 */
function inOrder(insertions: readonly Insertion[], end: number): readonly Insertion[] {
  const starts = new Uint32Array(end + 2);
  for (const { before } of insertions) starts[before + 1] = (starts[before + 1] ?? 0) + 1;
  for (let place = 1; place < starts.length; place++)
    starts[place] = (starts[place] ?? 0) + (starts[place - 1] ?? 0);
  const next = starts.slice();
  const sorted: Insertion[] = new Array<Insertion>(insertions.length);
  for (const insertion of insertions) {
    const at = next[insertion.before] ?? 0;
    next[insertion.before] = at + 1;
    sorted[at] = insertion;
  }
  for (let place = 0; place <= end; place++) {
    const from = starts[place] ?? 0;
    const to = starts[place + 1] ?? from;
    if (to - from < 2) continue;
    const together = sorted.slice(from, to).sort((a, b) => a.tick - b.tick || a.rank - b.rank);
    for (const [index, insertion] of together.entries()) sorted[from + index] = insertion;
  }
  return sorted;
}
