import { lastWithin } from '../../midi/index.js';
import { clickSample } from './schedule/click.js';
import { clickMs, controlFrames, type Message, type Schedule } from './schedule/index.js';
import type { Synth } from './synth/synth.js';

/** A stretch of sound. Both sides are used again for the next stretch: what is kept must be copied. */
export interface Block {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** How far a rendering has come. */
export interface RenderProgress {
  readonly frames: number;
  /** Without what rings on behind the end. */
  readonly of: number;
}

/** Frames in a block that is handed on. */
const blockFrames = 8192;

/** What rings on longer than this is faded out. Unit: seconds. */
export const longestTail = 8;
const fadeSeconds = 0.5;

/**
 * The sound of a schedule, block by block, as the synthesiser makes it: no limiter, no room. It ends where nothing sounds
 * any more, at the latest some seconds behind the last note.
 *
 * @param onProgress is told after each block
 */
export function* render(
  schedule: Schedule,
  synth: Synth,
  sampleRate: number,
  onProgress: (progress: RenderProgress) => void = () => {},
): Generator<Block, void, undefined> {
  const { messages, frames } = schedule;
  const left = new Float32Array(blockFrames);
  const right = new Float32Array(blockFrames);
  const end = frames + longestTail * sampleRate;
  let at = 0;
  let next = 0;

  /** Fills the block from `from` on up to the next message, or the next multiple of the synthesiser's block. */
  function step(from: number, until: number): number {
    for (let message = messages[next]; message && message.frame <= at + from; message = messages[next]) {
      say(synth, message);
      next += 1;
    }
    const toGrid = controlFrames - ((at + from) % controlFrames);
    const toMessage = (messages[next]?.frame ?? Number.POSITIVE_INFINITY) - at - from;
    const count = Math.min(toGrid, toMessage, until - from);
    synth.render(left, right, from, count);
    return count;
  }

  while (at < end) {
    left.fill(0);
    right.fill(0);
    const until = Math.min(blockFrames, end - at);
    let done = 0;
    while (done < until && !isOver(at + done)) done += step(done, until);
    addClicks(schedule, left, right, at, done, sampleRate);
    fade(left, right, at, done, end, sampleRate);
    at += done;
    if (done > 0) yield { left: left.subarray(0, done), right: right.subarray(0, done) };
    onProgress({ frames: Math.min(at, frames), of: frames });
    if (done < until) return;
  }

  function isOver(frame: number): boolean {
    if (frame < frames || next < messages.length) return false;
    // a voice that has been let go ends by itself; a pedal that is still down would hold it
    if (frame >= frames && frame < frames + controlFrames) synth.letGo();
    return synth.voices() === 0;
  }
}

function say(synth: Synth, message: Message): void {
  const { sound } = message;
  if (message.kind === 'on') synth.on(sound, message.key, message.velocity);
  else if (message.kind === 'off') synth.off(sound, message.key);
  else if (message.kind === 'controller') synth.controller(sound, message.controller, message.value);
  else if (message.kind === 'expression') synth.expression(sound, message.value);
  else if (message.kind === 'pan') synth.pan(sound, message.seat);
  else synth.bend(sound, message.value);
}

function addClicks(
  { clicks }: Schedule,
  left: Float32Array,
  right: Float32Array,
  at: number,
  count: number,
  sampleRate: number,
): void {
  const length = Math.round((clickMs * sampleRate) / 1000);
  const first = 1 + lastWithin(clicks.length, (index) => (clicks[index]?.frame ?? 0) + length, at);
  for (let index = first; index < clicks.length; index += 1) {
    const { frame = 0, isStrong = false } = clicks[index] ?? {};
    if (frame >= at + count) return;
    for (let place = Math.max(at, frame); place < Math.min(at + count, frame + length); place += 1) {
      const sample = clickSample(place - frame, isStrong, sampleRate);
      left[place - at] = (left[place - at] ?? 0) + sample;
      right[place - at] = (right[place - at] ?? 0) + sample;
    }
  }
}

/** The last half second before the end that is forced goes down to nothing. */
function fade(
  left: Float32Array,
  right: Float32Array,
  at: number,
  count: number,
  end: number,
  sampleRate: number,
): void {
  const length = fadeSeconds * sampleRate;
  for (let index = Math.max(0, end - length - at); index < count; index += 1) {
    const gain = Math.max(0, (end - at - index) / length);
    left[index] = (left[index] ?? 0) * gain;
    right[index] = (right[index] ?? 0) * gain;
  }
}
