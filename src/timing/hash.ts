import { murmur3 } from './murmur.js';

/**
 * What a note's chance depends on, and all that it depends on: a change elsewhere in the music, or another note
 * at another place, changes nothing here.
 */
export interface NoteKey {
  readonly seed: number;
  /** Names the part; any text that stays the same from run to run. */
  readonly part: string;
  readonly pitch: number;
  /** The tick of its onset as it was played, before anything is moved. */
  readonly position: number;
  /** How many notes of this pitch stand before it at this very position. */
  readonly occurrence: number;
}

/** The seed where the user gives none. */
export const defaultSeed = 1;

const encoder = new TextEncoder();

/**
 * A number from 0 to below 1 that is always the same for the same note and purpose, and evenly spread over notes:
 * 53 bits of two MurmurHash3 values.
 *
 * @param purpose keeps the draws of different options apart
 */
export function uniformOf(key: NoteKey, purpose: string): number {
  const bytes = encoder.encode(
    JSON.stringify([purpose, key.seed, key.part, key.pitch, key.position, key.occurrence]),
  );
  const high = murmur3(bytes, 0) >>> 5;
  const low = murmur3(bytes, 1) >>> 6;
  return (high * 0x4000000 + low) / 0x20000000000000;
}

/** The same, normally distributed with mean 0 and standard deviation 1: Box & Muller 1958, over two such numbers. */
export function gaussianOf(key: NoteKey, purpose: string): number {
  const radius = Math.sqrt(-2 * Math.log(1 - uniformOf(key, `${purpose} radius`)));
  return radius * Math.cos(2 * Math.PI * uniformOf(key, `${purpose} angle`));
}

/**
 * The farthest that a bounded draw goes, in standard deviations. 1.2 % of draws would lie beyond and are held there,
 * which leaves 98.9 % of the standard deviation.
 */
export const farthest = 2.5;

/** A normally distributed number that never lies farther from 0 than `farthest`. */
export function boundedGaussianOf(key: NoteKey, purpose: string): number {
  return Math.max(-farthest, Math.min(farthest, gaussianOf(key, purpose)));
}
