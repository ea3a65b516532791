import { pairedNotes, type Track } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

/**
 * New ticks for releases without a note: one that stood before a strike of its key still does when the strike moves
 * ahead, so that it cannot cut the note off. By index in the track; those that may stay are left out.
 *
 * @param starts where the notes start now, by decision
 */
export function strayMoves(
  track: Track,
  channel: number,
  decisions: readonly Decision[],
  starts: readonly number[],
): ReadonlyMap<number, number> {
  const moves = new Map<number, number>();
  const { strayOffs } = pairedNotes(track, channel);
  if (strayOffs.length === 0) return moves;
  const strikes = decisions
    .map(({ note }, index) => ({
      onIndex: note.onIndex,
      pitch: note.pitch,
      start: starts[index] ?? note.tick,
    }))
    .sort((a, b) => a.onIndex - b.onIndex);
  const ahead = new Map<number, number>();
  let next = strikes.length - 1;
  for (const index of [...strayOffs].reverse()) {
    for (let strike = strikes[next]; strike && strike.onIndex > index; strike = strikes[--next])
      ahead.set(strike.pitch, strike.start);
    const event = track.events[index];
    const start = event?.type === 'noteOff' ? ahead.get(event.noteNumber) : undefined;
    if (start !== undefined && start < (track.ticks[index] ?? 0)) moves.set(index, start);
  }
  return moves;
}
