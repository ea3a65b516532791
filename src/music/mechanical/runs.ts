/**
 * The members of runs, by index: each value that stands among the `lookBack` values before it goes on with a run, and
 * runs of at least `least` are marked, the value that begins them too.
 */
export function markRuns(values: ArrayLike<number>, lookBack: number, least: number): readonly boolean[] {
  const marked = new Array<boolean>(values.length).fill(false);
  let start = 0;
  for (let index = 0; index <= values.length; index++) {
    if (index < values.length && goesOn(values, index, lookBack)) continue;
    if (index - start >= least) marked.fill(true, start, index);
    start = index;
  }
  return marked;
}

function goesOn(values: ArrayLike<number>, index: number, lookBack: number): boolean {
  for (let before = Math.max(0, index - lookBack); before < index; before++)
    if (values[before] === values[index]) return true;
  return false;
}
