/** A place on one axis and the same place on another. */
export interface Point {
  readonly from: number;
  readonly to: number;
}

/**
 * Carries places from one axis to another along points that are known: the earliest of those at one place, between them
 * in proportion, beyond them at the pace of the nearest two. It never leads back: a point that lies before an earlier
 * one is passed over.
 *
 * @param points at least one, in any order
 */
export function rising(points: readonly Point[]): (from: number) => number {
  const line: Point[] = [];
  for (const point of [...points].sort((a, b) => a.from - b.from || a.to - b.to)) {
    const last = line.at(-1);
    if (!last || (point.from > last.from && point.to > last.to)) line.push(point);
  }
  return (from) => {
    const next = firstFrom(line, from);
    const here = line[next];
    if (here?.from === from) return here.to;
    if (next === 0) return between(line[0], line[1], from);
    return here ? between(line[next - 1], here, from) : between(line.at(-2), line.at(-1), from);
  };
}

/** Index of the first point at or behind a place. */
function firstFrom(line: readonly Point[], from: number): number {
  let low = 0;
  let high = line.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((line[middle]?.from ?? 0) < from) low = middle + 1;
    else high = middle;
  }
  return low;
}

function between(a: Point | undefined, b: Point | undefined, from: number): number {
  const known = a ?? b;
  if (!a || !b || a.from === b.from) return known?.to ?? 0;
  return a.to + ((from - a.from) * (b.to - a.to)) / (b.from - a.from);
}
