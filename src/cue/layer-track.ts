import { markAt } from '../map/index.js';
import {
  channelOf,
  EventBuilder,
  kindOf,
  lastTick,
  metaType,
  metaTypes,
  releaseVelocity,
  type Song,
  type Track,
  tickOf,
  trackOf,
} from '../midi/index.js';
import type { LayerNote } from './layer.js';

/** Controllers, channel pressure and pitch bends. */
const carried: ReadonlySet<number> = new Set([0xb0, 0xd0, 0xe0]);

/** What a layer's track is made from. */
export interface LayerTrack {
  /** Its number in the file, from 1. */
  readonly number: number;
  readonly name: string;
  /** The part's track. */
  readonly base: Track;
  /** The channels of the part. */
  readonly channels: ReadonlySet<number>;
  /** The channel of the layer, 0–15, where it is not the part's. */
  readonly channel?: number;
  readonly notes: readonly LayerNote[];
  readonly isArticulation: (name: string) => boolean;
}

/**
 * A track of its own for a layer: its name, its notes, the controllers, pitch bends and pressure of the part, and the
 * marks in the part that the layer's map understands. On one tick releases come first, note-ons last.
 */
export function layerTrack(song: Song, layer: LayerTrack): Track {
  const { number, name, base, channels, channel } = layer;
  const { columns } = base;
  const builder = new EventBuilder();
  builder.meta(0, metaTypes.trackName, new TextEncoder().encode(name));
  const keys = keysOf(layer.notes);
  let next = 0;
  const putKeys = (isDue: (key: Key) => boolean) => {
    for (let key = keys[next]; key && isDue(key); key = keys[++next])
      builder.message(key.tick, key.status, key.pitch, key.velocity);
  };
  const isMark = markReader(song, layer);
  let last = 0;
  for (let event = 0; event < columns.length; event++) {
    const kind = kindOf(columns, event);
    const isOfPart = carried.has(kind) && channels.has(channelOf(columns, event));
    if (!isOfPart && !isMark(event)) continue;
    const tick = tickOf(columns, event);
    putKeys((key) => key.tick < tick || (key.tick === tick && isRelease(key)));
    if (isOfPart) builder.copy(tick, columns, event, kind | (channel ?? channelOf(columns, event)));
    else builder.copy(tick, columns, event);
    last = tick;
  }
  putKeys(() => true);
  const end = Math.max(last, keys.at(-1)?.tick ?? 0, lastTick(columns));
  builder.meta(end, metaTypes.endOfTrack, []);
  return trackOf(number, name, builder.events());
}

/** A key that goes down or up. */
interface Key {
  readonly tick: number;
  readonly status: number;
  readonly pitch: number;
  readonly velocity: number;
}

function isRelease({ status }: Key): boolean {
  return status < 0x90;
}

/** In order of tick, releases first. */
function keysOf(notes: readonly LayerNote[]): readonly Key[] {
  return notes
    .flatMap(({ channel, tick, endTick, pitch, velocity }): readonly Key[] => [
      { tick, status: 0x90 | channel, pitch, velocity },
      { tick: endTick, status: 0x80 | channel, pitch, velocity: releaseVelocity },
    ])
    .sort((a, b) => a.tick - b.tick || Number(isRelease(b)) - Number(isRelease(a)));
}

/** Which events are marks that the layer's map understands and does not find elsewhere. */
function markReader(song: Song, { base, isArticulation }: LayerTrack): (event: number) => boolean {
  const { columns, number } = base;
  // Markers of the first track hold for every track anyway.
  const isEverywhere = (event: number) =>
    base === song.tracks[0] && metaType(columns, event) === metaTypes.marker;
  return (event) => {
    const mark = markAt(columns, event, number, isArticulation);
    return mark !== undefined && mark.kind !== 'unknown' && !isEverywhere(event);
  };
}
