/**
 * Ticks of events or notes, whole numbers from 0. In 32 bits for all music; where a track lasts longer than they can
 * say (weeks at common speeds, but a file of forty bytes can ask for it), as floating point numbers, which are exact.
 */
export type Ticks = Int32Array | Float64Array;

/** The latest tick that 32 bits can say. */
const latestInt32 = 0x7fffffff;

/** Room for ticks of which none is later than `latest`. */
export function ticksUpTo(latest: number, length: number): Ticks {
  return latest <= latestInt32 ? new Int32Array(length) : new Float64Array(length);
}

/** Whether 32 bits can say a tick. */
export function isInt32(tick: number): boolean {
  return (tick | 0) === tick;
}
