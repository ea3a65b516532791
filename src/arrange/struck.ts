import type { Clock } from '../midi/index.js';

/**
 * Groups what was struck together: all that lies within a window behind the first of it.
 *
 * @param notes in order of tick
 * @param windowMs in milliseconds
 */
export function struckTogether<N extends { readonly tick: number }>(
  notes: readonly N[],
  clock: Pick<Clock, 'ms'>,
  windowMs: number,
): readonly (readonly N[])[] {
  const groups: N[][] = [];
  for (const note of notes) {
    const open = groups.at(-1);
    const first = open?.[0];
    if (open && first && clock.ms(note.tick) - clock.ms(first.tick) <= windowMs) open.push(note);
    else groups.push([note]);
  }
  return groups;
}
