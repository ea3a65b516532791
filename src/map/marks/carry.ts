import { endsMark } from './families.js';
import type { MarkEvent } from './read.js';

const none: ReadonlySet<string> = new Set();

/**
 * The marks that each onset carries. A mark holds from its tick on until `[auto]` or until one of its family
 * takes its place; a mark for one onset stands last in the set, and takes the place of its family there only.
 *
 * @param reaches the tick up to which marks are at each onset: a note may be played a little before its mark; ascending
 * @param marks ascending by tick
 */
export function carryMarks(
  reaches: readonly number[],
  marks: readonly MarkEvent[],
  isArticulation: (name: string) => boolean,
): readonly ReadonlySet<string>[] {
  let inForce = none;
  let once: string[] = [];
  let next = 0;
  return reaches.map((tick) => {
    for (let mark = marks[next]; mark && mark.tick <= tick; mark = marks[++next]) {
      if (mark.kind === 'auto') inForce = none;
      else if (mark.kind === 'begin') inForce = withMark(inForce, mark.name, isArticulation);
      else if (mark.kind === 'once') once.push(mark.name);
    }
    const carried = once.reduce((set, name) => withMark(set, name, isArticulation), inForce);
    once = [];
    return carried;
  });
}

function withMark(
  marks: ReadonlySet<string>,
  name: string,
  isArticulation: (name: string) => boolean,
): ReadonlySet<string> {
  const kept = [...marks].filter((other) => other !== name && !endsMark(name, other, isArticulation));
  return new Set([...kept, name]);
}
