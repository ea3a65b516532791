// Decided notes moved as the timing options ask.
import type { Diagnostic } from '../../diagnostics/index.js';
import { changedNote, lastTick, type Track } from '../../midi/index.js';
import type { Move } from '../../timing/index.js';
import type { Decision } from '../decide/index.js';
import { spokenTicks } from './compensated.js';
import { followingEnds } from './ends.js';
import { heldBack } from './held-back.js';
import { loosenedStarts, rolledStarts } from './humanised.js';
import { settledEnds } from './joined.js';
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
  readonly decisions: readonly Decision[];
  /** What each note was moved by, by decision; undefined for those that stay. */
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
  const done = parts.map(retimePart);
  const moves = new Map<number, number>();
  parts.forEach((part, at) => {
    part.decisions.forEach(({ note }, index) => {
      const start = done[at]?.ticks.starts[index] ?? note.tick;
      const end = done[at]?.ticks.ends[index] ?? note.endTick;
      if (start !== note.tick) moves.set(note.onIndex, start);
      if (end !== note.endTick && note.offIndex >= 0) moves.set(note.offIndex, end);
    });
    const { decisions, line } = part;
    for (const [index, tick] of besideMoved(decisions, done[at]?.ticks, moves)) moves.set(index, tick);
    const strays = strayMoves(
      track.columns,
      line.part.channel,
      decisions,
      done[at]?.ticks ?? { starts: [], ends: [] },
    );
    for (const [index, tick] of strays) moves.set(index, tick);
  });
  const { track: rebuilt, indices } = rebuild(track, moves);
  const end = lastTick(rebuilt.columns);
  return {
    track: rebuilt,
    parts: parts.map((part, at) => ({
      decisions: part.decisions.map((decision, index) =>
        moved(decision, index, done[at]?.ticks, indices, end),
      ),
      get moves() {
        return done[at]?.moves ?? [];
      },
    })),
    diagnostics: done.flatMap(({ diagnostics }) => diagnostics),
  };
}

function moved(
  decision: Decision,
  index: number,
  ticks: Ticks | undefined,
  indices: readonly number[],
  trackEnd: number,
): Decision {
  const { note } = decision;
  const tick = ticks?.starts[index] ?? note.tick;
  const endTick = note.offIndex < 0 ? trackEnd : (ticks?.ends[index] ?? note.endTick);
  const onIndex = indices[note.onIndex] ?? note.onIndex;
  const offIndex = note.offIndex < 0 ? -1 : (indices[note.offIndex] ?? note.offIndex);
  return { ...decision, note: changedNote(note, { tick, endTick, onIndex, offIndex }) };
}

function retimePart(part: RetimedPart): {
  readonly ticks: Ticks;
  readonly moves: readonly (Move | undefined)[];
  readonly diagnostics: readonly Diagnostic[];
} {
  const { starts: pulled, held: heldByPull } = pulledStarts(part);
  const { starts: rolled, held: heldByRoll } = rolledStarts(part, pulled);
  const { starts: loosened, held: heldByLoosen } = loosenedStarts(part, rolled);
  const followed = { starts: loosened, ends: followingEnds(part, loosened) };
  const { ticks: spoken, diagnostics: late } = spokenTicks(part, followed);
  const settled = { starts: spoken.starts, ends: settledEnds(part, spoken) };
  const ticks = { starts: spoken.starts, ends: endsInOrder(part, settled) };
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
    // Only those who tell about single notes ask.
    get moves() {
      moves ??= movesOf(part, { pulled, rolled, loosened }, spoken.starts, ticks.ends);
      return moves;
    },
  };
}
