import { onOf } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { ForeignWrite } from './foreign.js';

/**
 * Parts strikes between whose notes the input writes to an aspect of the map (some files change the program for each note
 * of a chord), so that the switch can be sent again in between.
 *
 * @param foreign what the input writes on that channel, in order
 * @returns what is asked with the rows of each strike, in order: the rows of each of its parts
 */
export function splitterAt(
  rows: DecidedNotes,
  foreign: readonly ForeignWrite[],
): (strike: readonly number[]) => readonly (readonly number[])[] {
  if (foreign.length === 0) return (strike) => [strike];
  let next = 0;
  return (strike) => {
    const parts: number[][] = [];
    for (const row of [...strike].sort((a, b) => onOf(rows, a) - onOf(rows, b))) {
      const before = next;
      while ((foreign[next]?.index ?? Number.POSITIVE_INFINITY) < onOf(rows, row)) next += 1;
      const open = parts.at(-1);
      if (open && next === before) open.push(row);
      else parts.push([row]);
    }
    return parts;
  };
}
