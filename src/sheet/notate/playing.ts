import type { WrittenStaff } from './written.js';

/**
 * The staves that each system has, by their indices: those that have notes in it, as printed scores do. The first that is
 * drawn has all of them; one in which nobody plays has those of the system before it.
 *
 * @param systems for each bar its system, rising from 0
 * @param first the first system that is drawn
 */
export function stavesBySystem(
  of: readonly Pick<WrittenStaff, 'bars' | 'held'>[],
  systems: readonly number[],
  first: number,
): readonly (readonly number[])[] {
  const all = of.map((_, index) => index);
  const playing = Array.from({ length: (systems.at(-1) ?? -1) + 1 }, () => new Set<number>());
  of.forEach(({ bars, held }, staff) => {
    systems.forEach((system, bar) => {
      if ((bars[bar]?.length ?? 0) > 0 || held.has(bar)) playing[system]?.add(staff);
    });
  });
  let before: readonly number[] = all;
  return playing.map((here, system) => {
    if (here.size > 0) before = all.filter((staff) => here.has(staff));
    return system <= first ? all : before;
  });
}
