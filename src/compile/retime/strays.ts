import {
  type Events,
  firstData,
  isNoteOff,
  offOf,
  onOf,
  pairNotes,
  pitchOf,
  tickOf,
} from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { Ticks } from './state.js';

/**
 * New ticks for releases without a note, by index in the track: each still stands between the release of its key's note
 * before it and the next strike of its key, so that it cuts no note off. Those that may stay are left out; a release
 * that has to stand before one of them on the same tick is told too, with its own tick.
 */
export function strayMoves(
  events: Events,
  channel: number,
  decided: DecidedNotes,
  { starts, ends }: Ticks,
): ReadonlyMap<number, number> {
  const moves = new Map<number, number>();
  const { strayOffs } = pairNotes(events, channel);
  if (strayOffs.length === 0) return moves;
  const ofKeys = strikesOfKeys(decided, { starts, ends });
  for (const index of strayOffs) {
    const ofKey = isNoteOff(events, index) ? (ofKeys.get(firstData(events, index)) ?? []) : [];
    const next = ofKey.findIndex(({ onIndex }) => onIndex > index);
    const tick = tickOf(events, index);
    const { to, behind } = placeOf(tick, ofKey, next < 0 ? ofKey.length : next);
    if (to === tick && behind === undefined) continue;
    moves.set(index, to);
    if (behind?.end === to && behind.start < to && behind.offIndex >= 0) moves.set(behind.offIndex, to);
  }
  return moves;
}

/**
 * Between the strikes of a key around it; where these overlap by now, before them.
 *
 * @param next the index of the strike behind it
 * @returns its tick, and the strike that it had to be put behind or before, if any
 */
function placeOf(
  tick: number,
  strikes: readonly KeyStrike[],
  next: number,
): { readonly to: number; readonly behind: KeyStrike | undefined } {
  let at = next - 1;
  let to = Math.min(Math.max(tick, strikes[at]?.end ?? 0), strikes[next]?.start ?? Number.POSITIVE_INFINITY);
  const isClear = to === tick && (strikes[at]?.end ?? 0) <= to;
  for (let before = strikes[at]; before && before.end > to; before = strikes[at]) {
    to = Math.min(to, before.start);
    at -= 1;
  }
  return { to, behind: isClear ? undefined : (strikes[at] ?? strikes[next]) };
}

interface KeyStrike {
  readonly onIndex: number;
  readonly offIndex: number;
  readonly start: number;
  readonly end: number;
}

/** The strikes of each key in file order, where they stand now. */
function strikesOfKeys(
  decided: DecidedNotes,
  { starts, ends }: Ticks,
): ReadonlyMap<number, readonly KeyStrike[]> {
  const found = new Map<number, KeyStrike[]>();
  for (let row = 0; row < decided.length; row++) {
    const pitch = pitchOf(decided, row);
    const others = found.get(pitch) ?? [];
    const [onIndex, offIndex] = [onOf(decided, row), offOf(decided, row)];
    others.push({ onIndex, offIndex, start: starts[row] ?? 0, end: ends[row] ?? 0 });
    found.set(pitch, others);
  }
  for (const strikes of found.values()) strikes.sort((a, b) => a.onIndex - b.onIndex);
  return found;
}
