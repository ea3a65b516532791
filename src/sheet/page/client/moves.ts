/** Where a key leads: along a part, to another part, or to a part's ends. */
export type Move = 'next' | 'previous' | 'above' | 'below' | 'first' | 'last';

/** A note, by the indices of its part and of itself in it. */
export interface Address {
  readonly part: number;
  readonly note: number;
}

/**
 * The note that a move leads to; the same one at the ends. Another part is entered at the note that begins nearest, and
 * parts without notes are passed over.
 *
 * @param counts how many notes each part has
 * @param starts the tick of each note, by part, rising
 */
export function moveFrom(
  { part, note }: Address,
  move: Move,
  counts: readonly number[],
  starts: readonly (readonly number[])[],
): Address {
  const last = (counts[part] ?? 1) - 1;
  switch (move) {
    case 'next':
      return { part, note: Math.min(last, note + 1) };
    case 'previous':
      return { part, note: Math.max(0, note - 1) };
    case 'first':
      return { part, note: 0 };
    case 'last':
      return { part, note: last };
    case 'above':
    case 'below': {
      const step = move === 'above' ? -1 : 1;
      let other = part + step;
      while (counts[other] === 0) other += step;
      if (counts[other] === undefined) return { part, note };
      return { part: other, note: nearest(starts[other] ?? [], starts[part]?.[note] ?? 0) };
    }
  }
}

function nearest(starts: readonly number[], tick: number): number {
  let best = 0;
  starts.forEach((start, index) => {
    if (Math.abs(start - tick) < Math.abs((starts[best] ?? 0) - tick)) best = index;
  });
  return best;
}
