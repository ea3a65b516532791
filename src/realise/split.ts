import type { Decision } from '../model/decision.js';
import type { ForeignWrite } from './foreign.js';
import { gather, type Strike } from './strikes.js';

/**
 * Parts the strikes between whose notes the input writes to a slot of the map (some files change the program for each
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
    const notes = strike.decisions
      .flatMap((index) => {
        const decision = decisions[index];
        return decision ? [{ index, decision }] : [];
      })
      .sort((a, b) => a.decision.note.onIndex - b.decision.note.onIndex);
    const parts: Strike[] = [];
    for (const { index, decision } of notes) {
      const before = next;
      while ((foreign[next]?.index ?? Number.POSITIVE_INFINITY) < decision.note.onIndex) next += 1;
      const open = parts.at(-1);
      if (open && next === before) parts[parts.length - 1] = gather(open, decision, index);
      else parts.push(gather(undefined, decision, index, strike.channel));
    }
    return parts;
  });
}
