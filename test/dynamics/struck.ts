import type { Struck } from '../../src/dynamics/struck.js';

/** A note written down for a test, in ms; held up to the next where not said. */
export interface Written {
  readonly pace: number;
  readonly held?: number;
  readonly pitch?: number;
  readonly velocity?: number;
  readonly breath?: boolean;
  /** From the first to the last note of a chord. */
  readonly spread?: number;
}

/** A line of single notes, one tick to the millisecond. */
export function line(notes: readonly Written[], start = 0): readonly Struck[] {
  let tick = start;
  return notes.map(({ pace, held = pace, pitch = 60, velocity = 75, breath = false, spread = 0 }, index) => {
    const struck = {
      tick,
      lastTick: tick + spread,
      endTick: tick + held,
      pitch,
      velocity,
      paceMs: pace,
      heldMs: held,
      restAfterMs: index === notes.length - 1 ? Number.POSITIVE_INFINITY : Math.max(0, pace - held),
      breath,
    };
    tick += pace;
    return struck;
  });
}
