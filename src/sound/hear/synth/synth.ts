import type { Sound } from '../schedule/index.js';

/**
 * What renders sound, whichever library it is. Sounds are known by the order in which they were given. All calls take
 * effect at the frame that is rendered next.
 */
export interface Synth {
  on(sound: number, key: number, velocity: number): void;
  off(sound: number, key: number): void;
  controller(sound: number, controller: number, value: number): void;
  /** Controller 11 in 14 bits. */
  expression(sound: number, value: number): void;
  /** From −1 to 1, by RP-036. */
  pan(sound: number, seat: number): void;
  bend(sound: number, value: number): void;
  /** Lets go what is still held. */
  letGo(): void;
  /** Adds `count` frames, at most 128, to both sides from `start` on. */
  render(left: Float32Array, right: Float32Array, start: number, count: number): void;
  /** How many voices still sound. */
  voices(): number;
}

/** A note as a bank is asked for it. */
export interface Struck {
  readonly sound: Sound;
  readonly key: number;
  readonly velocity: number;
}
