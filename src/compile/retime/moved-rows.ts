import { lastTick, offOf, onOf, ticksUpTo } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { Rebuilt } from './rebuild.js';
import type { Ticks } from './state.js';

/** The same rows, with notes where they stand in a rebuilt track. */
export function movedRows(
  decided: DecidedNotes,
  { starts, ends }: Ticks,
  { events, indices }: Rebuilt,
): DecidedNotes {
  const { length, names, articulation, onset, pitch } = decided;
  const last = lastTick(events);
  const columns = {
    on: new Uint32Array(length),
    off: new Int32Array(length).fill(-1),
    tick: ticksUpTo(last, length),
    endTick: ticksUpTo(last, length),
  };
  for (let row = 0; row < length; row++) {
    const off = offOf(decided, row);
    columns.on[row] = indices[onOf(decided, row)] ?? 0;
    columns.tick[row] = starts[row] ?? 0;
    columns.endTick[row] = off < 0 ? last : (ends[row] ?? 0);
    if (off >= 0) columns.off[row] = indices[off] ?? 0;
  }
  return {
    ...{ length, names, articulation, onset, pitch, ...columns },
    noteOf: (row) => decided.noteOf(row),
    isKept: (row) => decided.isKept(row),
  };
}
