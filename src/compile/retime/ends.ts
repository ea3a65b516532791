import { firstStarts, type RetimedPart } from './state.js';

/**
 * Releases that follow their onsets: a detached note keeps its length; one that was held into the next onset follows
 * that onset, and keeps its overlap. Unmoved notes keep their release. Ticks, by decision.
 */
export function followingEnds(part: RetimedPart, starts: readonly number[]): readonly number[] {
  const { line, decisions } = part;
  const { clock } = line;
  const first = firstStarts(part, starts);
  return decisions.map(({ note }, index) => {
    const start = starts[index] ?? note.tick;
    const next = line.onsets[note.onset + 1];
    const nextStart = first[note.onset + 1];
    const follows = note.overlapsNext && next && nextStart !== undefined;
    const [from, to] = follows ? [next.tick, nextStart] : [note.tick, start];
    const end =
      from === to ? note.endTick : clock.tickAt(clock.ms(note.endTick) + clock.ms(to) - clock.ms(from));
    return start === note.tick && end === note.endTick ? end : Math.max(end, start + 1);
  });
}
