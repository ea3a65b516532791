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

/** So many steps from the last one found are quicker gone than looked for by halves. */
const nearby = 16;

/**
 * The same for many values that mostly come in order: goes from where the last one was found, where the next is near.
 */
export function finder(ascending: ArrayLike<number>): (value: number) => number {
  let last = -1;
  return (value) => {
    const { length } = ascending;
    let at = last;
    for (const end = Math.min(length - 1, last + nearby); at < end && (ascending[at + 1] ?? 0) <= value; )
      at += 1;
    for (const end = Math.max(-1, last - nearby); at > end && (ascending[at] ?? 0) > value; ) at -= 1;
    const isFound =
      (at < 0 || (ascending[at] ?? 0) <= value) && (at + 1 >= length || (ascending[at + 1] ?? 0) > value);
    last = isFound ? at : lastAtMost(ascending, value);
    return last;
  };
}
