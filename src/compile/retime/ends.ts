import { noteEnd, noteTick } from '../../midi/index.js';
import { onsetOf } from '../decide/index.js';
import { firstStarts, perRow, type RetimedPart } from './state.js';

/**
 * Releases that follow their onsets: a detached note keeps its length; one that was held into the next onset follows
 * that onset, and keeps its overlap. Unmoved notes keep their release. Ticks, by row.
 */
export function followingEnds(part: RetimedPart, starts: Float64Array): Float64Array {
  const { line, decided } = part;
  const { clock, measures } = line;
  const first = firstStarts(part, starts);
  return perRow(decided, (row) => {
    const [played, release] = [noteTick(decided, row), noteEnd(decided, row)];
    const start = starts[row] ?? played;
    const next = onsetOf(decided, row) + 1;
    const [nextPlayed, nextStart] = [measures.onsetTick(next), first[next]];
    const follows = nextPlayed !== undefined && nextStart !== undefined && decided.noteOf(row).overlapsNext;
    const [from, to] = follows ? [nextPlayed, nextStart] : [played, start];
    const end = from === to ? release : clock.tickAt(clock.ms(release) + clock.ms(to) - clock.ms(from));
    return start === played && end === release ? end : Math.max(end, start + 1);
  });
}
