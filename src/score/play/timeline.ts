import type { Placed, Score, ScoreMeasure } from '../model.js';
import type { Step } from './order.js';
import type { PlayedBar } from './performance.js';

/** Bars as they are played, with their ticks. */
export function barsOf(steps: readonly Step[], measures: readonly ScoreMeasure[]): readonly PlayedBar[] {
  let tick = 0;
  return steps.flatMap(({ measure, pass, until }) => {
    const written = measures[measure];
    if (!written) return [];
    const length = until ?? written.length;
    const bar = { tick, length, measure, number: written.number, pass, metre: written.metre };
    tick += length;
    return [bar];
  });
}

/** Something of a score at each tick at which it is played. */
export interface Unfolded<T> {
  readonly item: T;
  readonly bar: number;
  readonly tick: number;
}

/** Everything that stands in bars, once for each time that its bar is played and its passes allow, in order of bars. */
export function unfold<T extends Placed<object>>(
  items: readonly T[],
  bars: readonly PlayedBar[],
): readonly Unfolded<T>[] {
  const byMeasure = new Map<number, T[]>();
  for (const item of items) {
    const list = byMeasure.get(item.measure);
    if (list) list.push(item);
    else byMeasure.set(item.measure, [item]);
  }
  return bars.flatMap(({ tick, length, measure, pass }, bar) =>
    (byMeasure.get(measure) ?? [])
      .filter(({ offset, passes }) => (!passes || passes.includes(pass)) && offset <= length)
      .map((item) => ({ item, bar, tick: tick + item.offset })),
  );
}

/** How many notes all parts will have, without making them. */
export function countNotes({ parts }: Score, steps: readonly Step[]): number {
  const counts = new Map<number, number>();
  for (const { notes } of parts)
    for (const { measure } of notes) counts.set(measure, (counts.get(measure) ?? 0) + 1);
  return steps.reduce((sum, { measure }) => sum + (counts.get(measure) ?? 0), 0);
}
