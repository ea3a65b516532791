// Decided notes moved as the timing options ask.
import type { Diagnostic } from '../../diagnostics/index.js';
import { noteEnd, noteTick, offOf, onOf, type Track, trackOf } from '../../midi/index.js';
import type { Move } from '../../timing/index.js';
import type { DecidedNotes } from '../decide/index.js';
import { spokenTicks } from './compensated.js';
import { followingEnds } from './ends.js';
import { EventMoves } from './event-moves.js';
import { heldBack } from './held-back.js';
import { loosenedStarts, rolledStarts } from './humanised.js';
import { settledEnds } from './joined.js';
import { movedRows } from './moved-rows.js';
import { movesOf } from './moves.js';
import { pulledStarts } from './pulled.js';
import { rebuild } from './rebuild.js';
import { besideMoved, endsInOrder } from './releases.js';
import type { RetimedPart, Ticks } from './state.js';
import { strayMoves } from './strays.js';

export { gridPlaces } from './places.js';
export { withPreroll } from './shift.js';
export { bindSpeaksAfter } from './speaks-after.js';
export type { RetimedPart } from './state.js';

/** A part after its timing was changed: the same decisions, with notes where they stand now. */
export interface Retimed {
  readonly decided: DecidedNotes;
  /** What each note was moved by, by row; undefined for those that stay. */
  readonly moves: readonly (Move | undefined)[];
}

/**
 * Changes the timing of a track's parts: pull, roll, loosen, compensate, joins, in this order, each only if its part
 * asks for it. The decisions were made on the music as it was played and do not change.
 */
export function retime(
  track: Track,
  parts: readonly RetimedPart[],
): {
  readonly track: Track;
  readonly parts: readonly Retimed[];
  readonly diagnostics: readonly Diagnostic[];
} {
  const { columns } = track;
  const done = parts.map((part) => ({ part, ...retimePart(part) }));
  const moves = new EventMoves(columns.length);
  for (const { part, ticks } of done) {
    const { decided, line } = part;
    const { starts, ends } = ticks;
    for (let row = 0; row < decided.length; row++) {
      const [start, end, off] = [starts[row] ?? 0, ends[row] ?? 0, offOf(decided, row)];
      if (start !== noteTick(decided, row)) moves.set(onOf(decided, row), start);
      if (end !== noteEnd(decided, row) && off >= 0) moves.set(off, end);
    }
    for (const row of besideMoved(decided, ticks, moves)) moves.set(offOf(decided, row), ends[row] ?? 0);
    for (const [event, tick] of strayMoves(columns, line.part.channel, decided, ticks))
      moves.set(event, tick);
  }
  const rebuilt = rebuild(columns, moves);
  return {
    track: moves.any ? trackOf(track.number, track.name, rebuilt.events) : track,
    parts: done.map((one) => ({
      decided: movedRows(one.part.decided, one.ticks, rebuilt),
      get moves() {
        return one.movesOfNotes();
      },
    })),
    diagnostics: done.flatMap(({ diagnostics }) => diagnostics),
  };
}

function retimePart(part: RetimedPart): {
  readonly ticks: Ticks;
  /** Only those who tell about single notes ask. */
  readonly movesOfNotes: () => readonly (Move | undefined)[];
  readonly diagnostics: readonly Diagnostic[];
} {
  const { starts: pulled, held: heldByPull } = pulledStarts(part);
  const { starts: rolled, held: heldByRoll } = rolledStarts(part, pulled);
  const { starts: loosened, held: heldByLoosen } = loosenedStarts(part, rolled);
  const followed = { starts: loosened, ends: followingEnds(part, loosened) };
  const { ticks: spoken, diagnostics: late } = spokenTicks(part, followed);
  const settled = { starts: spoken.starts, ends: settledEnds(part, spoken) };
  const ticks = { starts: spoken.starts, ends: endsInOrder(part.decided, settled) };
  const diagnostics = [
    ...heldBack(part, 'pull', heldByPull),
    ...heldBack(part, 'roll', heldByRoll),
    ...heldBack(part, 'loosen', heldByLoosen),
    ...late,
  ];
  let moves: readonly (Move | undefined)[] | undefined;
  return {
    ticks,
    diagnostics,
    movesOfNotes: () => {
      moves ??= movesOf(part, { pulled, rolled, loosened }, ticks);
      return moves;
    },
  };
}
