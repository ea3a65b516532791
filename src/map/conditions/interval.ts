/** A stretch of one measure, from inclusive to end exclusive; whole numbers end one further. */
export interface Interval {
  /** The measure and its unit: only intervals of one measure can be compared. */
  readonly measure: string;
  readonly from: number;
  readonly end: number;
  /** Everything that the measure may be; absent where some notes have no such measure. */
  readonly whole?: { readonly from: number; readonly end: number };
}

export function isEmpty({ from, end }: Pick<Interval, 'from' | 'end'>): boolean {
  return from >= end;
}

/** Whether the whole of one interval lies in another of its measure. */
export function liesIn(inner: Interval, outer: Interval): boolean {
  return inner.measure === outer.measure && inner.from >= outer.from && inner.end <= outer.end;
}
