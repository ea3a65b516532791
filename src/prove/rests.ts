import { type Clock, type Duration, isAtLeast } from '../midi/index.js';
import type { HeardNote } from './heard-note.js';

/** Silence before an onset. */
export interface Rest {
  readonly ms: number;
  readonly ticks: number;
}

/** The silence before each onset of a part, by onset: since the latest release before it; endless before the first. */
export function restsBefore(notes: readonly HeardNote[], clock: Clock): readonly Rest[] {
  const rests: Rest[] = [];
  let latest = 0;
  for (const { onset, tick, endTick } of notes) {
    if (rests.length <= onset) {
      const from = Math.min(latest, tick);
      const endless = { ms: Number.POSITIVE_INFINITY, ticks: Number.POSITIVE_INFINITY };
      rests.push(onset === 0 ? endless : { ms: clock.ms(tick) - clock.ms(from), ticks: tick - from });
    }
    latest = Math.max(latest, endTick);
  }
  return rests;
}

/** Whether a switch is sent again after a rest; never where no rest is given. */
export function isRestDue(rest: Rest | undefined, afterRest: Duration | undefined, clock: Clock): boolean {
  return rest !== undefined && afterRest !== undefined && isAtLeast(rest, afterRest, clock.ticksPerWhole);
}
