import type { Hearing } from '../playback.js';
import type { Violation } from '../violations.js';

/** Looks for one kind of violation in what was heard of a part. */
export type HearingRule = (hearing: Hearing) => readonly Violation[];

/** What is found at each of so many things, which are asked by their index. */
export function foundAt(
  { length }: { readonly length: number },
  look: (index: number) => Violation | undefined,
): readonly Violation[] {
  const found: Violation[] = [];
  for (let index = 0; index < length; index++) {
    const violation = look(index);
    if (violation) found.push(violation);
  }
  return found;
}
