/** Longer names are not compared: nobody mistypes them, and comparing costs the product of the lengths. */
const longestName = 64;

/**
 * The candidate that a mistyped name most likely means; undefined where none is near. Near is a third of the name's
 * length in edits (insertions, deletions, changes, swaps of neighbours: Damerau 1964, restricted), or else a beginning
 * in common: of three characters, or the whole of the shorter name.
 */
export function nearest(name: string, candidates: readonly string[]): string | undefined {
  const wanted = name.toLowerCase();
  if (wanted === '' || wanted.length > longestName) return undefined;
  const compared = candidates.filter(({ length }) => length > 0 && length <= longestName);
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const candidate of compared) {
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best ?? compared.find((candidate) => sharesBeginning(wanted, candidate.toLowerCase()));
}

function sharesBeginning(a: string, b: string): boolean {
  const shared = sharedBeginning(a, b);
  return shared >= 3 || (shared >= 2 && shared === Math.min(a.length, b.length));
}

function sharedBeginning(a: string, b: string): number {
  let length = 0;
  while (length < a.length && a[length] === b[length]) length += 1;
  return length;
}

function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const line = [row];
    for (let column = 1; column <= b.length; column++) {
      const change = (above[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      let least = Math.min((above[column] ?? 0) + 1, (line[column - 1] ?? 0) + 1, change);
      const isSwap = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (isSwap) least = Math.min(least, (before[column - 2] ?? 0) + 1);
      line.push(least);
    }
    before = above;
    above = line;
  }
  return above[b.length] ?? 0;
}
