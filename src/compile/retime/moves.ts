import type { Move } from '../../timing/index.js';
import type { RetimedPart } from './state.js';

/** Where notes start after each step, in ticks, by decision. */
export interface Steps {
  readonly pulled: readonly number[];
  readonly rolled: readonly number[];
  readonly loosened: readonly number[];
}

/** What each note was moved by, step by step; undefined for those that stay. Unit: ms, to the microsecond. */
export function movesOf(
  { line: { clock }, decisions }: RetimedPart,
  { pulled, rolled, loosened }: Steps,
  starts: readonly number[],
  ends: readonly number[],
): readonly (Move | undefined)[] {
  const shift = (from: number | undefined, to: number | undefined) =>
    from === to ? undefined : Math.round((clock.ms(to ?? 0) - clock.ms(from ?? 0)) * 1000) / 1000;
  return decisions.map(({ note }, index): Move | undefined => {
    const onset = shift(note.tick, starts[index]) ?? 0;
    const steps = {
      pull: shift(note.tick, pulled[index]),
      roll: shift(pulled[index], rolled[index]),
      loosen: shift(rolled[index], loosened[index]),
      compensate: shift(loosened[index], starts[index]),
      release: Math.round(((shift(note.endTick, ends[index]) ?? 0) - onset) * 1000) / 1000 || undefined,
    };
    const taken = Object.entries(steps).flatMap(([step, ms]) =>
      ms === undefined ? [] : [[step, ms] as const],
    );
    return taken.length === 0 ? undefined : Object.fromEntries(taken);
  });
}
