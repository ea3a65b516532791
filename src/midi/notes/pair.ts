import type { PairedNote } from '../line.js';
import type { Track } from '../song.js';

export interface Pairing {
  /** In file order of the note-ons. */
  readonly notes: readonly PairedNote[];
  /** Indices of note-offs that had no open note. */
  readonly strayOffs: readonly number[];
}

/** Notes of one pitch, by their number among the note-ons; those before `next` are released. */
interface OpenNotes {
  readonly ordinals: number[];
  next: number;
}

/**
 * Pairs the note-ons of a channel with their releases: a release ends the earliest open note of its pitch.
 * A note left open ends with the track.
 */
export function pairNotes(track: Track, channel: number): Pairing {
  const open: (OpenNotes | undefined)[] = [];
  const ons: number[] = [];
  const offs: number[] = [];
  const strayOffs: number[] = [];
  track.events.forEach((event, index) => {
    if (event.type === 'noteOn' && event.channel === channel) {
      const waiting = open[event.noteNumber];
      const ordinal = ons.push(index) - 1;
      offs.push(-1);
      if (waiting) waiting.ordinals.push(ordinal);
      else open[event.noteNumber] = { ordinals: [ordinal], next: 0 };
    } else if (event.type === 'noteOff' && event.channel === channel) {
      const waiting = open[event.noteNumber];
      const on = waiting?.ordinals[waiting.next];
      if (waiting && on !== undefined) {
        waiting.next += 1;
        offs[on] = index;
      } else strayOffs.push(index);
    }
  });
  return { notes: ons.map((on, ordinal) => paired(track, on, offs[ordinal] ?? -1)), strayOffs };
}

function paired(track: Track, onIndex: number, offIndex: number): PairedNote {
  const event = track.events[onIndex];
  const tick = track.ticks[onIndex] ?? 0;
  const endTick = offIndex < 0 ? (track.ticks.at(-1) ?? tick) : (track.ticks[offIndex] ?? tick);
  const { noteNumber: pitch, velocity } = event?.type === 'noteOn' ? event : { noteNumber: 0, velocity: 0 };
  return { onIndex, offIndex, tick, endTick, pitch, velocity };
}
