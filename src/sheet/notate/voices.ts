import { QUARTER } from './measures.js';
import type { WrittenOnset } from './onsets.js';
import type { NoteToNotate } from './types.js';

/** Notes with one stem, from their written onset to their written end. */
export interface VoiceEvent {
  readonly start: number;
  readonly end: number;
  readonly notes: readonly NoteToNotate[];
}

/** The part of the way to the next onset over which a note is held when it is written up to it. */
const FULL = 0.6;

/** No shorter rest than a sixteenth is written between two notes. */
const SHORTEST_REST = QUARTER / 4;

/** How far behind the next onset a note ends, at least, when it is no overlap: as it is written. */
const HELD_ON = QUARTER;

/** And as it was played, in quarters. */
const PLAYED_ON = 0.75;

/**
 * Deals a staff's onsets to two voices, so that in each of them one event ends before the next begins. A note that
 * sounds on for at least a quarter behind the next onset keeps a voice to itself while the other voice goes on; where
 * both are taken, notes end at the next onset.
 *
 * @param endOf where a note ends as it is written, were it alone
 * @param quarter in ticks
 */
export function voicesOf(
  onsets: readonly WrittenOnset[],
  endOf: (note: NoteToNotate, start: number) => number,
  quarter: number,
): readonly [readonly VoiceEvent[], readonly VoiceEvent[]] {
  const line: VoiceEvent[] = [];
  const second: VoiceEvent[] = [];
  onsets.forEach((onset, index) => {
    const next = onsets[index + 1];
    const start = onset.place;
    const ends = onset.notes.map((note) => endOf(note, start));
    const isHeld = onset.notes.map(({ endTick }, at) => {
      if (!next || (ends[at] ?? 0) < next.place + HELD_ON) return false;
      return endTick - next.tick >= PLAYED_ON * quarter;
    });
    const held = onset.notes.filter((_, at) => isHeld[at]);
    const moving = onset.notes.filter((_, at) => !isHeld[at]);
    const heldEnd = ends.filter((_, at) => isHeld[at]).reduce((least, end) => Math.min(least, end), Infinity);
    const lineFree = endAt(line) <= start;
    const secondFree = endAt(second) <= start;
    if (held.length > 0 && moving.length > 0 && lineFree && secondFree) {
      second.push({ start, end: heldEnd, notes: held });
      line.push({ start, end: lineEnd(onset, moving, next, endOf), notes: moving });
      return;
    }
    const voice = (held.length > 0 && secondFree) || !lineFree ? second : line;
    const other = endAt(voice === second ? line : second);
    const goesOn = moving.length === 0 && next !== undefined && other <= next.place;
    voice.push({
      start,
      end: goesOn ? heldEnd : lineEnd(onset, onset.notes, next, endOf),
      notes: onset.notes,
    });
  });
  return [line, second];
}

function endAt(voice: readonly VoiceEvent[]): number {
  return voice.at(-1)?.end ?? 0;
}

/** Where notes end that the next onset ends at the latest. */
function lineEnd(
  { place, tick }: WrittenOnset,
  notes: readonly NoteToNotate[],
  next: WrittenOnset | undefined,
  endOf: (note: NoteToNotate, start: number) => number,
): number {
  const end = notes.reduce((latest, note) => Math.max(latest, endOf(note, place)), 0);
  if (!next) return end;
  const release = notes.reduce((latest, note) => Math.max(latest, note.endTick), 0);
  const isFull = release - tick >= FULL * (next.tick - tick);
  return isFull || end > next.place - SHORTEST_REST ? next.place : end;
}
