import { type ArticulationMap, aspectsByWriter, heldKeys, writerOf } from '../../map/index.js';
import { channelOf, type Events, kindOf, statusOf, tickOf } from '../../midi/index.js';
import type { StrayRelease } from './sent.js';

/** An event of the input that changes what is in an aspect, so that what was sent there no longer holds. */
export interface ForeignWrite {
  readonly index: number;
  readonly tick: number;
  readonly aspects: readonly string[];
}

/** The aspects of a map that an event of the input writes to; none for most. */
export function aspectWatcher(map: ArticulationMap): (events: Events, event: number) => readonly string[] {
  const aspects = aspectsByWriter(map);
  return (events, event) => {
    const writer = writerOf(events, event);
    return (writer && aspects.get(writer)) ?? [];
  };
}

/**
 * The foreign writes that reach a channel, in file order.
 *
 * @param copiedFrom the channel whose controllers are copied to this one
 */
export function foreignWrites(
  events: Events,
  channel: number,
  copiedFrom: number,
  aspectsWritten: (events: Events, event: number) => readonly string[],
): readonly ForeignWrite[] {
  const writes: ForeignWrite[] = [];
  const reaches = (event: number) => {
    const kind = kindOf(events, event);
    if (kind === 0xb0) return channelOf(events, event) === channel || channelOf(events, event) === copiedFrom;
    return kind === 0xc0 ? channelOf(events, event) === channel : statusOf(events, event) === 0xf0;
  };
  for (let event = 0; event < events.length; event++) {
    if (!reaches(event)) continue;
    const aspects = aspectsWritten(events, event);
    if (aspects.length > 0) writes.push({ index: event, tick: tickOf(events, event), aspects });
  }
  return writes;
}

/** The stray releases of the music that let switch keys go which are held, as writes to their aspects. */
export function strayWrites(strays: readonly StrayRelease[], map: ArticulationMap): readonly ForeignWrite[] {
  if (strays.length === 0) return [];
  const held = heldKeys(map);
  return strays.flatMap(({ index, tick, pitch }) => {
    const aspects = held.get(pitch);
    return aspects ? [{ index, tick, aspects }] : [];
  });
}
