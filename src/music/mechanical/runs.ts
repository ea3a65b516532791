import type { Verdict } from './tally.js';

/**
 * Marks the members of runs: each value that stands among the `lookBack` values before it goes on with a run, and
 * runs of at least `least` are marked, the value that begins them too.
 */
export function markRuns(
  values: readonly { readonly tick: number; readonly value: number }[],
  lookBack: number,
  least: number,
): readonly Verdict[] {
  const verdicts: Verdict[] = [];
  let start = 0;
  const close = (end: number) => {
    for (const { tick } of values.slice(start, end))
      verdicts.push({ tick, mechanical: end - start >= least });
    start = end;
  };
  values.forEach(({ value }, index) => {
    const before = values.slice(Math.max(0, index - lookBack), index);
    if (!before.some((earlier) => earlier.value === value)) close(index);
  });
  close(values.length);
  return verdicts;
}
