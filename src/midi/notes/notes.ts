import { picked, type Ticks } from '../events/index.js';
import type { PairedNote } from '../line.js';

/** The notes of a part in columns, in file order of their note-ons. */
export interface Notes {
  readonly length: number;
  /** The note-on: its index among the track's events. */
  readonly on: Uint32Array;
  /** The release, likewise; −1 where none came. */
  readonly off: Int32Array;
  readonly tick: Ticks;
  /** The tick of the release; of the track's last event where none came. */
  readonly endTick: Ticks;
  readonly pitch: Uint8Array;
  readonly velocity: Uint8Array;
}

export const noNotes: Notes = {
  length: 0,
  on: new Uint32Array(0),
  off: new Int32Array(0),
  tick: new Int32Array(0),
  endTick: new Int32Array(0),
  pitch: new Uint8Array(0),
  velocity: new Uint8Array(0),
};

export function onOf({ on }: Pick<Notes, 'on'>, note: number): number {
  return on[note] ?? 0;
}

export function offOf({ off }: Pick<Notes, 'off'>, note: number): number {
  return off[note] ?? -1;
}

export function noteTick({ tick }: Pick<Notes, 'tick'>, note: number): number {
  return tick[note] ?? 0;
}

export function noteEnd({ endTick }: Pick<Notes, 'endTick'>, note: number): number {
  return endTick[note] ?? 0;
}

export function pitchOf({ pitch }: Pick<Notes, 'pitch'>, note: number): number {
  return pitch[note] ?? 0;
}

export function velocityOf({ velocity }: Pick<Notes, 'velocity'>, note: number): number {
  return velocity[note] ?? 0;
}

/** Only some notes, by index, in their order. */
export function keptNotes(notes: Notes, isKept: (note: number) => boolean): Notes {
  const kept = Uint32Array.from({ length: notes.length }, (_, note) => note).filter(isKept);
  return {
    length: kept.length,
    on: picked(notes.on, kept),
    off: picked(notes.off, kept),
    tick: picked(notes.tick, kept),
    endTick: picked(notes.endTick, kept),
    pitch: picked(notes.pitch, kept),
    velocity: picked(notes.velocity, kept),
  };
}

/** One note as an object. */
export function noteAt(notes: Notes, note: number): PairedNote {
  return {
    onIndex: onOf(notes, note),
    offIndex: offOf(notes, note),
    tick: noteTick(notes, note),
    endTick: noteEnd(notes, note),
    pitch: pitchOf(notes, note),
    velocity: velocityOf(notes, note),
  };
}
