import { parseMidi } from 'midi-file';
import type { MidiEvent } from '../song.js';
import type { MetaEvent, Walk } from './walk.js';

/** A meta event type that `midi-file` does not know, and so hands on as bytes. */
const unknownType = 0x60;

/** MThd: format 0, one track, 96 ticks to a quarter note (which no event depends on); then MTrk. */
const wrapping = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 96, 0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, 0];

/**
 * The events of a track that was looked through and found whole.
 *
 * @param from the offset of the track's first event in the file
 * @param to the offset behind its last
 * @returns undefined where `midi-file` cannot read it, or reads other events than were seen
 */
export function parseTrack(
  bytes: Uint8Array,
  from: number,
  to: number,
  walk: Walk,
): readonly MidiEvent[] | undefined {
  const wrapped = new Uint8Array(wrapping.length + to - from);
  wrapped.set(wrapping);
  new DataView(wrapped.buffer).setUint32(wrapping.length - 4, to - from);
  wrapped.set(bytes.subarray(from, to), wrapping.length);
  for (const { offset } of walk.masked) wrapped[wrapping.length + offset - from] = unknownType;
  try {
    const events = parseMidi(wrapped).tracks[0];
    return events?.length === walk.events ? unmask(events, walk.masked) : undefined;
  } catch {
    // It throws strings, of which no user could make anything.
    return undefined;
  }
}

/** Gives masked meta events their own types again. */
function unmask(events: MidiEvent[], masked: readonly MetaEvent[]): readonly MidiEvent[] {
  for (const { event: index, type } of masked) {
    const event = events[index];
    if (event?.type !== 'unknownMeta') throw new Error('not the event that was masked');
    events[index] = { ...event, metatypeByte: type };
  }
  return events;
}
