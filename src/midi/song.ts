import type { MidiEvent } from 'midi-file';

export type { MidiEvent } from 'midi-file';

/** How ticks count time: parts of a quarter note, or parts of a SMPTE frame. */
export type Division =
  | { readonly kind: 'ppq'; readonly ppq: number }
  | { readonly kind: 'smpte'; readonly framesPerSecond: number; readonly ticksPerFrame: number };

/**
 * One MTrk chunk. Events are those of `midi-file`, in file order, each with its deltaTime. A meta event that
 * `midi-file` could not give back byte for byte is held as `unknownMeta` with its type byte and data.
 */
export interface Track {
  /** Counted from 1 in file order. */
  readonly number: number;
  /** The first track name event, decoded (UTF-8, else Latin-1); '' where there is none. */
  readonly name: string;
  readonly events: readonly MidiEvent[];
  /** The absolute tick of each event. */
  readonly ticks: readonly number[];
}

/** A chunk as it stood in the file: a track, or one the standard says to pass over. */
export type Chunk =
  | { readonly kind: 'track'; readonly track: number; readonly bytes: Uint8Array }
  | { readonly kind: 'other'; readonly bytes: Uint8Array };

/** A Standard MIDI File, with its chunks kept so that what is not changed is written back as it was. */
export interface Song {
  /** The file's name as the user gave it; for messages. */
  readonly file: string;
  readonly format: 0 | 1 | 2;
  readonly division: Division;
  /** The MThd chunk's bytes, id and length included. */
  readonly header: Uint8Array;
  readonly chunks: readonly Chunk[];
  readonly tracks: readonly Track[];
}
