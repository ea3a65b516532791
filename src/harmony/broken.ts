import type { SoundingNote } from '../model/harmony.js';
import type { Clock } from '../time/clock.js';
import { barGrid, beatGrid, type Grid, unitTicks } from './grid.js';

/** What leaps is no melody: more than a second, in semitones. */
const leap = 3;
/** So many notes in a row that leap make a broken chord. */
const fewest = 6;
/** None of them may be longer than this share of a quarter note, played loosely. */
const longest = 0.6;

/**
 * When each note ends as it is heard: notes of broken chords sound on through their half of the bar (all of it where
 * its beats are odd in number), or until their pitch is struck again, as with a pedal (common practice, no source).
 * A broken chord is a row of short notes of one part, each of them the lowest that begins there, that leap.
 *
 * @param notes in order of tick
 */
export function heardEnds(notes: readonly SoundingNote[], clock: Clock): readonly number[] {
  const ends = notes.map(({ endTick }) => endTick);
  const cell = halfBars(clock);
  const most = longest * unitTicks(clock);
  for (const line of lowestLines(notes))
    for (const row of rowsOf(line, most)) {
      const next = new Map<number, number>();
      for (const { note, index } of row.reverse()) {
        const until = Math.min(cell(note.tick).to, next.get(note.pitch) ?? Number.POSITIVE_INFINITY);
        ends[index] = Math.max(note.endTick, until);
        next.set(note.pitch, note.tick);
      }
    }
  return ends;
}

interface Placed {
  readonly note: SoundingNote;
  readonly index: number;
}

/** For each part the lowest note of each onset, in order of tick. */
function lowestLines(notes: readonly SoundingNote[]): Iterable<readonly Placed[]> {
  const lines = new Map<number, Placed[]>();
  notes.forEach((note, index) => {
    const line = lines.get(note.part);
    const last = line?.at(-1);
    if (!line) lines.set(note.part, [{ note, index }]);
    else if (last?.note.tick !== note.tick) line.push({ note, index });
    else if (note.pitch < last.note.pitch) line[line.length - 1] = { note, index };
  });
  return lines.values();
}

/** Rows of notes that leap, each struck within `most` ticks of the one before. */
function rowsOf(line: readonly Placed[], most: number): Placed[][] {
  const rows: Placed[][] = [[]];
  for (const here of line) {
    const row = rows.at(-1);
    const before = row?.at(-1)?.note;
    if (row && (!before || follows(before, here.note, most))) row.push(here);
    else rows.push([here]);
  }
  return rows.filter(({ length }) => length >= fewest);
}

function follows(before: SoundingNote, note: SoundingNote, most: number): boolean {
  return note.tick - before.tick <= most && Math.abs(note.pitch - before.pitch) >= leap;
}

/** Halves of bars whose beats are even in number; else whole bars. */
function halfBars(clock: Clock): Grid {
  const bars = barGrid(clock);
  const beats = beatGrid(clock);
  return (tick) => {
    const { from, to } = bars(tick);
    const { beat = 1 } = clock.position(to - 1) ?? {};
    const middle = beats(Math.floor((from + to) / 2)).from;
    if (beat % 2 !== 0) return { from, to };
    return tick < middle ? { from, to: middle } : { from: middle, to };
  };
}
