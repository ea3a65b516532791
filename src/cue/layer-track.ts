import { readMarks } from '../map/index.js';
import { type MidiEvent, type Song, type Track, trackOfObjects } from '../midi/index.js';
import { inTime } from './edit.js';
import type { LayerNote } from './layer.js';

const carried = new Set<MidiEvent['type']>(['controller', 'pitchBend', 'channelAftertouch']);
const texts = new Set<MidiEvent['type']>(['text', 'lyrics', 'marker', 'cuePoint']);

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
 * marks in the part that the layer's map understands.
 */
export function layerTrack(song: Song, layer: LayerTrack): Track {
  const { number, name, base, channels, notes, channel } = layer;
  const timed: { readonly tick: number; readonly rank: number; readonly event: MidiEvent }[] = [];
  const isMark = markReader(song, layer);
  base.events.forEach((event, index) => {
    const isOfPart = carried.has(event.type) && 'channel' in event && channels.has(event.channel);
    const tick = base.ticks[index] ?? 0;
    if (isOfPart) timed.push({ tick, rank: 1, event: channel === undefined ? event : { ...event, channel } });
    else if (isMark(event, tick)) timed.push({ tick, rank: 1, event });
  });
  for (const { channel: of, tick, endTick, pitch, velocity } of notes) {
    const about = { deltaTime: 0, channel: of, noteNumber: pitch };
    timed.push({ tick, rank: 2, event: { ...about, type: 'noteOn', velocity } });
    timed.push({ tick: endTick, rank: 0, event: { ...about, type: 'noteOff', velocity: 64 } });
  }
  timed.sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  const end = Math.max(timed.at(-1)?.tick ?? 0, base.ticks.at(-1) ?? 0);
  const named: MidiEvent = { deltaTime: 0, meta: true, type: 'trackName', text: utf8(name) };
  const closing: MidiEvent = { deltaTime: 0, meta: true, type: 'endOfTrack' };
  const all = [{ tick: 0, event: named }, ...timed, { tick: end, event: closing }];
  const { events, ticks } = inTime(all);
  return trackOfObjects(number, name, events, ticks);
}

/** Which texts are marks that the layer's map understands and does not find elsewhere. */
function markReader(
  song: Song,
  { base, isArticulation }: LayerTrack,
): (event: MidiEvent, tick: number) => boolean {
  const understood = (event: MidiEvent, tick: number): boolean => {
    const single = trackOfObjects(base.number, '', [event], [tick]);
    return readMarks({ ...song, tracks: [single] }, single, isArticulation).some(
      ({ kind }) => kind !== 'unknown',
    );
  };
  // Markers of the first track hold for every track anyway.
  const isEverywhere = (event: MidiEvent) => event.type === 'marker' && base === song.tracks[0];
  return (event, tick) => texts.has(event.type) && !isEverywhere(event) && understood(event, tick);
}

/** A text as events hold it: a character for each byte. */
function utf8(text: string): string {
  return Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join('');
}
