import type { EngravedSystem, Engraver } from './engrave/index.js';
import type { Notation } from './notate/index.js';

/** So many systems are engraved at a time: fewer take as long, and more take more memory (16 of them, 40 MB more). */
const together = 8;

/**
 * The systems of a score, engraved piece by piece, each when it is asked for. Those of a piece have the same staves.
 *
 * @param tell told how many are done
 */
export function* engravedSystems(
  { drawn, excerpt, shown }: Notation,
  engrave: Engraver,
  tell?: (done: number, of: number) => void,
  size: number = together,
): Generator<EngravedSystem> {
  const stavesOf = (system: number) => shown[system]?.join() ?? '';
  for (let from = drawn.from; from < drawn.to; ) {
    let to = from + 1;
    while (to < Math.min(drawn.to, from + size) && stavesOf(to) === stavesOf(from)) to += 1;
    const { mei, before } = excerpt(from, to);
    yield* engrave(mei, before, before + to - from);
    tell?.(to - drawn.from, drawn.to - drawn.from);
    from = to;
  }
}
