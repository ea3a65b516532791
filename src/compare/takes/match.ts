/** A note at its place on the axis of both takes. */
export interface Placed {
  readonly pitch: number;
  /** NaN where the other take has nothing. */
  readonly place: number;
}

/** A note of the first take and the same in the second, by their indices. */
export type Pair = readonly [first: number, second: number];

/**
 * Finds the notes that are in both takes: those of one pitch at one place, then of what is left the nearest of one pitch,
 * no further apart than `most`. What is in no pair is in one take only.
 */
export function matched(first: readonly Placed[], second: readonly Placed[], most: number): readonly Pair[] {
  const spots = new Map<string, number[]>();
  second.forEach(({ pitch, place }, index) => {
    const spot = spots.get(`${pitch} ${place}`);
    if (spot) spot.push(index);
    else spots.set(`${pitch} ${place}`, [index]);
  });
  const pairs: Pair[] = [];
  const taken = new Set<number>();
  const rest: number[] = [];
  for (const [index, { pitch, place }] of first.entries()) {
    const same = spots.get(`${pitch} ${place}`)?.shift();
    if (same === undefined) rest.push(index);
    else {
      taken.add(same);
      pairs.push([index, same]);
    }
  }
  const others = [...second.keys()].filter(
    (index) => !taken.has(index) && !Number.isNaN(second[index]?.place),
  );
  return [...pairs, ...nearest({ notes: first, indices: rest }, { notes: second, indices: others }, most)];
}

interface Side {
  readonly notes: readonly Placed[];
  readonly indices: readonly number[];
}

/** The nearest pairs first, each note in one of them. */
function nearest(ours: Side, theirs: Side, most: number): readonly Pair[] {
  const one = inOrder(ours);
  const other = inOrder(theirs);
  const near: { readonly pair: Pair; readonly apart: number }[] = [];
  let from = 0;
  for (const { index, place, pitch } of one) {
    while ((other[from]?.place ?? Number.POSITIVE_INFINITY) < place - most) from += 1;
    for (let at = from; at < other.length; at++) {
      const candidate = other[at];
      if (!candidate || candidate.place > place + most) break;
      const apart = Math.abs(candidate.place - place);
      if (candidate.pitch === pitch) near.push({ pair: [index, candidate.index], apart });
    }
  }
  const used = { ours: new Set<number>(), theirs: new Set<number>() };
  return near
    .sort((a, b) => a.apart - b.apart || a.pair[0] - b.pair[0] || a.pair[1] - b.pair[1])
    .flatMap(({ pair }) => {
      if (used.ours.has(pair[0]) || used.theirs.has(pair[1])) return [];
      used.ours.add(pair[0]);
      used.theirs.add(pair[1]);
      return [pair];
    });
}

function inOrder({ notes, indices }: Side) {
  return indices
    .map((index) => ({ index, place: notes[index]?.place ?? 0, pitch: notes[index]?.pitch ?? 0 }))
    .sort((a, b) => a.place - b.place || a.index - b.index);
}
