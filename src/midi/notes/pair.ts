import {
  type Events,
  firstData,
  lastTick,
  secondData,
  statusOf,
  tickOf,
  ticksUpTo,
} from '../events/index.js';
import type { Notes } from './notes.js';
import { OpenNotes } from './open-notes.js';

export interface PairedColumns {
  readonly notes: Notes;
  /** Indices of note-offs that had no open note. */
  readonly strayOffs: readonly number[];
}

/**
 * Pairs the note-ons of a channel with their releases: a release ends the earliest open note of its pitch.
 * A note left open ends with the track.
 *
 * @param channel 0–15
 */
export function pairNotes(events: Events, channel: number): PairedColumns {
  const on = noteOns(events, channel);
  const off = new Int32Array(on.length).fill(-1);
  const strayOffs = pairOffs(events, channel, on, off);
  const last = lastTick(events);
  const tick = ticksUpTo(last, on.length);
  const endTick = ticksUpTo(last, on.length);
  const pitch = new Uint8Array(on.length);
  const velocity = new Uint8Array(on.length);
  for (let note = 0; note < on.length; note++) {
    const event = on[note] ?? 0;
    const release = off[note] ?? -1;
    tick[note] = tickOf(events, event);
    endTick[note] = release < 0 ? last : tickOf(events, release);
    pitch[note] = firstData(events, event);
    velocity[note] = secondData(events, event);
  }
  return { notes: { length: on.length, on, off, tick, endTick, pitch, velocity }, strayOffs };
}

function noteOns(events: Events, channel: number): Uint32Array {
  const status = 0x90 | channel;
  const on = new Uint32Array(events.length);
  let length = 0;
  for (let event = 0; event < events.length; event++)
    if (statusOf(events, event) === status && secondData(events, event) !== 0) on[length++] = event;
  return on.slice(0, length);
}

/** Fills in the releases; returns those that had no open note. */
function pairOffs(events: Events, channel: number, on: Uint32Array, off: Int32Array): readonly number[] {
  const open = new OpenNotes(on.length);
  const strays: number[] = [];
  let note = 0;
  for (let event = 0; event < events.length; event++) {
    const status = statusOf(events, event);
    if ((status & 0xef) !== (0x80 | channel)) continue;
    const pitch = firstData(events, event);
    if (event === on[note]) open.add(pitch, note++);
    else {
      const released = open.take(pitch);
      if (released < 0) strays.push(event);
      else off[released] = event;
    }
  }
  return strays;
}
