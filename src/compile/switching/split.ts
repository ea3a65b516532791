import type { Decision } from '../decide/index.js';
import type { ForeignWrite } from './foreign.js';
import { type Strike, strikeOf } from './strikes.js';

/**
 * Parts the strikes between whose notes the input writes to an aspect of the map (some files change the program for each
 * note of a chord), so that the switch can be sent again in between.
 *
 * @param strikes of one channel, in order
 * @param foreign what the input writes on that channel, in order
 */
export function splitAtForeign(
  strikes: readonly Strike[],
  decisions: readonly Decision[],
  foreign: readonly ForeignWrite[],
): readonly Strike[] {
  if (foreign.length === 0) return strikes;
  let next = 0;
  return strikes.flatMap((strike) => {
    const onIndexOf = (index: number) => decisions[index]?.note.onIndex ?? 0;
    const parts: number[][] = [];
    for (const index of [...strike.decisions].sort((a, b) => onIndexOf(a) - onIndexOf(b))) {
      const before = next;
      while ((foreign[next]?.index ?? Number.POSITIVE_INFINITY) < onIndexOf(index)) next += 1;
      const open = parts.at(-1);
      if (open && next === before) open.push(index);
      else parts.push([index]);
    }
    return parts.flatMap((indices) => strikeOf(decisions, indices, strike.channel) ?? []);
  });
}
