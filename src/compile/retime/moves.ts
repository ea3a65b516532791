import { noteEnd, noteTick } from '../../midi/index.js';
import type { Move } from '../../timing/index.js';
import type { RetimedPart, Ticks } from './state.js';

/** Where notes start after each step, in ticks, by row. */
export interface Steps {
  readonly pulled: Float64Array;
  readonly rolled: Float64Array;
  readonly loosened: Float64Array;
}

/** What each note was moved by, step by step; undefined for those that stay. Unit: ms, to the microsecond. */
export function movesOf(
  { line: { clock }, decided }: RetimedPart,
  { pulled, rolled, loosened }: Steps,
  { starts, ends }: Ticks,
): readonly (Move | undefined)[] {
  const shift = (from: number | undefined, to: number | undefined) =>
    from === to ? undefined : Math.round((clock.ms(to ?? 0) - clock.ms(from ?? 0)) * 1000) / 1000;
  return Array.from({ length: decided.length }, (_, row): Move | undefined => {
    const played = noteTick(decided, row);
    const onset = shift(played, starts[row]) ?? 0;
    const steps = {
      pull: shift(played, pulled[row]),
      roll: shift(pulled[row], rolled[row]),
      loosen: shift(rolled[row], loosened[row]),
      compensate: shift(loosened[row], starts[row]),
      release:
        Math.round(((shift(noteEnd(decided, row), ends[row]) ?? 0) - onset) * 1000) / 1000 || undefined,
    };
    const taken = Object.entries(steps).flatMap(([step, ms]) =>
      ms === undefined ? [] : [[step, ms] as const],
    );
    return taken.length === 0 ? undefined : Object.fromEntries(taken);
  });
}
