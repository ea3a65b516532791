import { type Interval, isEmpty } from '../conditions/index.js';

/** Intervals of one measure in order, none of them touching another. */
export type Union = readonly Interval[];

/** A union with one interval more. */
export function unionOf(union: Union, interval: Interval): Union {
  if (isEmpty(interval)) return union;
  const apart = union.filter(({ from, end }) => end < interval.from || from > interval.end);
  const touching = union.filter((one) => !apart.includes(one));
  const whole = {
    measure: interval.measure,
    from: Math.min(interval.from, ...touching.map(({ from }) => from)),
    end: Math.max(interval.end, ...touching.map(({ end }) => end)),
  };
  return [
    ...apart.filter(({ from }) => from < whole.from),
    whole,
    ...apart.filter(({ from }) => from > whole.from),
  ];
}
