/** The index of the last of ascending numbers that is at most `value`; −1 where there is none. */
export function lastAtMost(ascending: ArrayLike<number>, value: number): number {
  return lastWithin(ascending.length, (index) => ascending[index] ?? 0, value);
}

/**
 * The same for things that are in order by a number.
 *
 * @param numberOf the number of the thing with an index
 */
export function lastWithin(length: number, numberOf: (index: number) => number, value: number): number {
  let below = -1;
  let above = length;
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (numberOf(middle) <= value) below = middle;
    else above = middle;
  }
  return below;
}

/**
 * The same for many values that mostly come in order: looks first where the last one was found, and just behind it.
 */
export function finder(ascending: ArrayLike<number>): (value: number) => number {
  let last = -1;
  const fits = (index: number, value: number) =>
    index < ascending.length &&
    (index < 0 || (ascending[index] ?? 0) <= value) &&
    (ascending[index + 1] ?? Number.POSITIVE_INFINITY) > value;
  return (value) => {
    if (fits(last, value)) return last;
    last = fits(last + 1, value) ? last + 1 : lastAtMost(ascending, value);
    return last;
  };
}
