import {
  EventBuilder,
  isHeldKey,
  messageBytes,
  messagesOf,
  newFile,
  type SwitchMessage,
} from '../keyslip.js';
import { type ProbedArticulation, type ProbedLibrary, wholeNoteMs } from '../library.js';
import type { ProbePlan, ProbeSlot } from './types.js';

/** 120 quarters a minute, so that a sequencer that ignores the file's tempo most likely plays it right all the same. */
const ppq = 480;
const ticksPerSecond = (4 * ppq * 1000) / wholeNoteMs;

/** From a slot's beginning to its switch keys. Unit: seconds. */
const switchAt = 0.1;
/** How long a momentary key is held past the last note. Unit: seconds. */
const holdOver = 0.05;

interface Timed {
  /** Unit: seconds. */
  readonly at: number;
  /** A channel message. */
  readonly bytes: readonly number[];
}

/** The probe as a Standard MIDI File of one track, on channel 1 unless an articulation has a channel of its own. */
export function probeSong(plan: ProbePlan, library: ProbedLibrary): Uint8Array {
  const timed = plan.slots
    .flatMap((slot) => slotEvents(slot, library))
    .sort((a, b) => a.at - b.at || rank(a) - rank(b));
  const tickAt = (seconds: number) => Math.round(seconds * ticksPerSecond);
  const microseconds = (wholeNoteMs / 4) * 1000;
  const events = new EventBuilder();
  events.meta(0, 0x03, new TextEncoder().encode('probe'));
  events.meta(
    0,
    0x51,
    [16, 8, 0].map((shift) => (microseconds >> shift) & 0xff),
  );
  events.meta(0, 0x58, [4, 2, 24, 8]);
  for (const {
    at,
    bytes: [status = 0, one = 0, two = 0],
  } of timed)
    events.message(tickAt(at), status, one, two);
  events.meta(tickAt(plan.seconds), 0x2f, []);
  const file = newFile(ppq, [events.events()]);
  // A probe's longest time is a few seconds.
  if (!file) throw new RangeError('a probe has times that no file can say');
  return file;
}

/** On one tick releases come first, then controllers and programs, notes last. */
function rank({ bytes: [status = 0] }: Timed): number {
  return [0x80, 0xb0, 0xc0, 0x90].indexOf(status & 0xf0);
}

function slotEvents(slot: ProbeSlot, library: ProbedLibrary): readonly Timed[] {
  const articulation = library.articulations.find(({ name }) => name === slot.articulation);
  const messages = articulation?.switch ?? [];
  const channel = messages.reduce((own, message) => (message.kind === 'channel' ? message.channel : own), 0);
  const set = (controller: number, value: number): Timed => ({
    at: slot.at,
    bytes: [0xb0 | channel, controller, value],
  });
  const shape = library.controller !== undefined && slot.value !== undefined;
  return [
    ...(shape ? [set(library.controller ?? 0, slot.value ?? 0)] : []),
    set(10, slot.pan),
    ...messages.flatMap((message, index) => switchEvents(message, channel, slot, index, library)),
    ...slot.notes.flatMap(({ at, held, pitch, velocity }): readonly Timed[] => {
      const key = articulation?.key ?? pitch + (library.transpose ?? 0);
      return [
        { at, bytes: [0x90 | channel, key, sentVelocity(velocity, articulation)] },
        { at: at + held, bytes: [0x80 | channel, key, 64] },
      ];
    }),
  ];
}

/** Played velocities 1 to 127 are laid evenly into the range of an articulation that has one. */
function sentVelocity(velocity: number, { velocities }: Pick<ProbedArticulation, 'velocities'> = {}): number {
  if (!velocities) return velocity;
  const [least, most] = velocities;
  return Math.round(least + ((velocity - 1) / 126) * (most - least));
}

/** A message's events, a little later than those of the messages before it, so that they arrive in the map's order. */
function switchEvents(
  message: SwitchMessage,
  channel: number,
  slot: ProbeSlot,
  index: number,
  { isMomentary, tapMs, switchVelocity }: ProbedLibrary,
): readonly Timed[] {
  const at = slot.at + switchAt + index * 0.01;
  if (message.kind !== 'note')
    return messagesOf(message, channel).map((sent) => ({ at, bytes: messageBytes(sent) }));
  const end = Math.max(...slot.notes.map((note) => note.at + note.held)) + holdOver;
  const isHeld = isHeldKey(message, { notes: isMomentary ? 'momentary' : 'latching' });
  const until = isHeld ? end : Math.min(at + tapMs / 1000, slot.at + 0.45);
  return [
    { at, bytes: [0x90 | channel, message.key, switchVelocity] },
    { at: until, bytes: [0x80 | channel, message.key, 64] },
  ];
}
