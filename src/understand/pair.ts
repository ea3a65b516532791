import type { Track } from '../model/song.js';

/** A note-on and its release. Indices are into the track's events; offIndex is −1 where none came. */
export interface PairedNote {
  readonly onIndex: number;
  readonly offIndex: number;
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly velocity: number;
}

export interface Pairing {
  /** In file order of the note-ons. */
  readonly notes: readonly PairedNote[];
  /** Indices of note-offs that had no open note. */
  readonly strayOffs: readonly number[];
}

interface OpenNotes {
  readonly indices: number[];
  next: number;
}

/**
 * Pairs the note-ons of a channel with their releases: a release ends the earliest open note of its pitch.
 * A note left open ends with the track.
 */
export function pairNotes(track: Track, channel: number): Pairing {
  const open: (OpenNotes | undefined)[] = [];
  const offs = new Map<number, number>();
  const ons: number[] = [];
  const strayOffs: number[] = [];
  track.events.forEach((event, index) => {
    if (event.type === 'noteOn' && event.channel === channel) {
      ons.push(index);
      const waiting = open[event.noteNumber];
      if (waiting) waiting.indices.push(index);
      else open[event.noteNumber] = { indices: [index], next: 0 };
    } else if (event.type === 'noteOff' && event.channel === channel) {
      const waiting = open[event.noteNumber];
      const on = waiting?.indices[waiting.next];
      if (waiting && on !== undefined) {
        waiting.next += 1;
        offs.set(on, index);
      } else strayOffs.push(index);
    }
  });
  return { notes: ons.map((on) => paired(track, on, offs.get(on) ?? -1)), strayOffs };
}

function paired(track: Track, onIndex: number, offIndex: number): PairedNote {
  const event = track.events[onIndex];
  const tick = track.ticks[onIndex] ?? 0;
  const endTick = offIndex < 0 ? (track.ticks.at(-1) ?? tick) : (track.ticks[offIndex] ?? tick);
  const { noteNumber: pitch, velocity } = event?.type === 'noteOn' ? event : { noteNumber: 0, velocity: 0 };
  return { onIndex, offIndex, tick, endTick, pitch, velocity };
}
