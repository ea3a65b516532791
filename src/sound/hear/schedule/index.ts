// What happens when: from parts in real time to messages at frames.
import type {
  HearBend,
  HearController,
  HearNote,
  HearOptions,
  HearPart,
  PlainArticulation,
} from '../types.js';
import { type Follower, follow } from './controllers.js';
import { inOrder, type Message } from './message.js';
import { type Sounding, sounding } from './sounding.js';
import { type Sound, soundsOf } from './sounds.js';

export type { Message } from './message.js';
export type { Sound } from './sounds.js';

/** All that is played, in order, before a synthesiser is asked for anything. */
export interface Schedule {
  readonly sounds: readonly Sound[];
  readonly messages: readonly Message[];
  readonly clicks: readonly { readonly frame: number; readonly isStrong: boolean }[];
  /** The frame at which the last note, with its pedal, or click is over, without what rings on. */
  readonly frames: number;
  /** How many notes are heard. */
  readonly notes: number;
  readonly plain: readonly PlainArticulation[];
}

/**
 * Values change at frames that are multiples of this: the synthesiser works in blocks of as many, and each cut in a block
 * costs. At 44.1 kHz it is 2.9 ms. Notes are not moved.
 */
export const controlFrames = 128;

/** How long a click sounds. Unit: ms. */
export const clickMs = 40;

const sustainPedal = 64;

/** So long behind the last release a pedal that comes up is waited for. Unit: seconds. */
const longestPedal = 8;

/** From parts to what the synthesiser is to do. Linear in notes and controllers, but for sorting. */
export function scheduleOf(parts: readonly HearPart[], options: HearOptions): Schedule {
  const { sampleRate, range, asPlayed = false, clicks = [] } = options;
  const from = range?.fromMs ?? 0;
  const to = range?.toMs ?? Number.POSITIVE_INFINITY;
  const frameAt = (ms: number) => Math.max(0, Math.round(((ms - from) * sampleRate) / 1000));
  const sounds = soundsOf(parts, asPlayed);
  const messages: Message[] = [];
  let notes = 0;

  parts.forEach((part, number) => {
    if (!isHeard(part, options)) return;
    for (const note of part.notes) {
      if (!reaches(note, from, to)) continue;
      const { sound, followsCurve, standIn } = sounds.voicingOf(number, note.articulation);
      const heard = within(sounding(note, standIn, followsCurve, asPlayed), from, to);
      if (!heard) continue;
      const { fromMs, toMs, key, velocity } = heard;
      const frame = frameAt(fromMs);
      messages.push({ kind: 'on', frame, sound, key, velocity });
      messages.push({ kind: 'off', frame: Math.max(frame + 1, frameAt(toMs)), sound, key });
      notes += 1;
    }
  });
  sounds.all.forEach((sound, index) => {
    const part = parts[sound.part];
    if (part) messages.push(...values(part, sound, index, { from, to, frameAt }));
  });

  const heardClicks = clicks
    .filter(({ ms }) => ms >= from && ms < to)
    .map(({ ms, isStrong }) => ({ frame: frameAt(ms), isStrong }));
  const ordered = inOrder(messages);
  const lastClick =
    (heardClicks.at(-1)?.frame ?? 0) + (heardClicks.length === 0 ? 0 : frameAt(from + clickMs));
  const frames = Math.max(lastClick, lastFrame(ordered, longestPedal * sampleRate));
  return {
    sounds: sounds.all,
    messages: ordered.filter(({ frame }) => frame <= frames),
    clicks: heardClicks,
    frames,
    notes,
    plain: sounds.plain(),
  };
}

/** The frame of the last release, or of the pedal's behind it. */
function lastFrame(messages: readonly Message[], longest: number): number {
  const lastOff = messages.reduce(
    (last, { kind, frame }) => (kind === 'off' ? Math.max(last, frame) : last),
    0,
  );
  const pedal = messages.findLast(
    (message) =>
      message.kind === 'controller' &&
      message.controller === sustainPedal &&
      message.value < 64 &&
      message.frame <= lastOff + longest,
  );
  return Math.max(lastOff, pedal?.frame ?? 0);
}

function isHeard({ name }: HearPart, { parts, solo = [] }: HearOptions): boolean {
  return (!parts || parts.includes(name)) && (solo.length === 0 || solo.includes(name));
}

function reaches({ onsetMs, endMs }: HearNote, from: number, to: number): boolean {
  return onsetMs < to && endMs > from;
}

/** A note of which part is heard begins and ends with that part; one that speaks only behind the end is not heard. */
function within(note: Sounding, from: number, to: number): Sounding | undefined {
  const fromMs = Math.max(note.fromMs, from);
  const toMs = Math.min(note.toMs, to);
  return fromMs < toMs ? { ...note, fromMs, toMs } : undefined;
}

interface Window {
  readonly from: number;
  readonly to: number;
  frameAt(ms: number): number;
}

/** A part's controllers and bends for one of its sounds. What was set before the window is in force at its beginning. */
function values(part: HearPart, sound: Sound, index: number, window: Window): readonly Message[] {
  const follower = follow(part, sound);
  const before = [...lastBefore(part.controllers, window.from).values()];
  const inside = part.controllers.filter(({ ms }) => ms > window.from && ms < window.to);
  const messages: Message[] = [];
  for (const one of before) messages.push(...said(follower, one, index, 0));
  for (const one of inside) messages.push(...said(follower, one, index, controlFrame(window, one.ms)));
  const bends = part.bends ?? [];
  const inForce = bends.findLast(({ ms }) => ms <= window.from);
  if (inForce) messages.push(bend(inForce, index, 0));
  for (const one of bends)
    if (one.ms > window.from && one.ms < window.to)
      messages.push(bend(one, index, controlFrame(window, one.ms)));
  return messages;
}

function controlFrame({ frameAt }: Window, ms: number): number {
  return Math.floor(frameAt(ms) / controlFrames) * controlFrames;
}

function said(
  follower: Follower,
  { controller, value }: HearController,
  sound: number,
  frame: number,
): Message[] {
  return follower.set(controller, value).map((one) => ({ ...one, sound, frame }));
}

function bend({ value }: HearBend, sound: number, frame: number): Message {
  return { kind: 'bend', frame, sound, value };
}

/** The last value of each controller up to a time, in the order in which they were set; a reset forgets others. */
function lastBefore(controllers: readonly HearController[], ms: number): Map<number, HearController> {
  const last = new Map<number, HearController>();
  for (const one of controllers) {
    if (one.ms > ms) break;
    last.delete(one.controller);
    last.set(one.controller, one);
  }
  return last;
}
