import { type ArticulationMap, aspectsByWriter, heldKeys, writerOf } from '../../map/index.js';
import type { MidiEvent, Track } from '../../midi/index.js';
import type { StrayRelease } from './sent.js';

/** An event of the input that changes what is in an aspect, so that what was sent there no longer holds. */
export interface ForeignWrite {
  readonly index: number;
  readonly tick: number;
  readonly aspects: readonly string[];
}

/** The aspects of a map that an event of the input writes to; none for most. */
export function aspectWatcher(map: ArticulationMap): (event: MidiEvent) => readonly string[] {
  const aspects = aspectsByWriter(map);
  return (event) => {
    const writer = writerOf(event);
    return (writer && aspects.get(writer)) ?? [];
  };
}

/**
 * The foreign writes that reach a channel, in file order.
 *
 * @param copiedFrom the channel whose controllers are copied to this one
 */
export function foreignWrites(
  track: Track,
  channel: number,
  copiedFrom: number,
  aspectsWritten: (event: MidiEvent) => readonly string[],
): readonly ForeignWrite[] {
  const writes: ForeignWrite[] = [];
  track.events.forEach((event, index) => {
    if (event.type !== 'controller' && event.type !== 'programChange' && event.type !== 'sysEx') return;
    const isCopied = event.type === 'controller' && event.channel === copiedFrom;
    if (event.type !== 'sysEx' && event.channel !== channel && !isCopied) return;
    const aspects = aspectsWritten(event);
    if (aspects.length > 0) writes.push({ index, tick: track.ticks[index] ?? 0, aspects });
  });
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
