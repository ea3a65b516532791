import type { Clock } from '../../midi/index.js';
import { barGrid, beatGrid, type Cell, type Grid, unitTicks } from './grid.js';

/** What leaps is no melody: more than a second, in semitones. */
const leap = 3;
/** A broken chord leaps in this share of its intervals; a step lies between its seventh and its root. */
const leaping = 0.65;
/** It is a row of so many notes, or part of one. */
const fewest = 8;
/** None of them may be longer than this share of a quarter note, played loosely. */
const longest = 0.6;
/** A beat with so many pitches has a chord of its own, unless it shares as many with its neighbour as `shared`. */
const chordPitches = 3;
const shared = 2;

interface Note {
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly part: number;
}

/**
 * Notes as they are heard: those of a broken chord sound together through their half of the bar (all of it where its
 * beats are odd in number), or through their beat, where each beat has a chord of its own (common practice, no source).
 * A broken chord is a row of short notes of one part, each of them the lowest that begins there, most of which leap.
 *
 * @param notes in order of tick
 */
export function heardTogether<T extends Note>(notes: readonly T[], clock: Clock): T[] {
  const heard = [...notes];
  const halves = halfBars(clock);
  const beats = beatGrid(clock);
  const most = longest * unitTicks(clock);
  for (const line of lowestLines(notes))
    for (const row of rowsOf(notes, line, most))
      for (const half of inCells(row, halves))
        for (const { cell, placed } of chordsOf(half, beats))
          for (const { note, index } of placed) {
            const tick = placed[0]?.note.tick ?? note.tick;
            heard[index] = { ...note, tick, endTick: Math.max(note.endTick, cell.to) };
          }
  return heard;
}

interface Placed<T> {
  readonly note: T;
  readonly index: number;
}

interface Chord<T> {
  readonly cell: Cell;
  readonly placed: readonly Placed<T>[];
}

/** For each part the lowest note of each onset, by index, in order of tick. */
function lowestLines(notes: readonly Note[]): Iterable<readonly number[]> {
  const lines = new Map<number, number[]>();
  notes.forEach((note, index) => {
    const line = lines.get(note.part);
    const last = notes[line?.at(-1) ?? -1];
    if (!line) lines.set(note.part, [index]);
    else if (last?.tick !== note.tick) line.push(index);
    else if (note.pitch < last.pitch) line[line.length - 1] = index;
  });
  return lines.values();
}

/** Rows of notes, each struck within `most` ticks of the one before, most of which leap; two steps end a row. */
function* rowsOf<T extends Note>(
  notes: readonly T[],
  line: readonly number[],
  most: number,
): Generator<readonly Placed<T>[]> {
  let [start, leaps, steps] = [0, 0, 0];
  for (let at = 1; at <= line.length; at++) {
    const [before, here] = [notes[line[at - 1] ?? -1], notes[line[at] ?? -1]];
    const leapt = before && here && Math.abs(here.pitch - before.pitch) >= leap;
    if (before && here && here.tick - before.tick <= most && (leapt || steps === 0)) {
      leaps += leapt ? 1 : 0;
      steps = leapt ? 0 : 1;
      continue;
    }
    const length = at - start;
    if (length >= fewest && leaps >= leaping * (length - 1))
      yield line.slice(start, at).flatMap((index) => {
        const note = notes[index];
        return note ? [{ note, index }] : [];
      });
    [start, leaps, steps] = [at, 0, 0];
  }
}

function inCells<T extends Note>(row: readonly Placed<T>[], grid: Grid): readonly Chord<T>[] {
  const chords: { cell: Cell; placed: Placed<T>[] }[] = [];
  for (const here of row) {
    const open = chords.at(-1);
    if (open && here.note.tick < open.cell.to) open.placed.push(here);
    else chords.push({ cell: grid(here.note.tick), placed: [here] });
  }
  return chords;
}

/** The chords of half a bar: one, or one in each beat. */
function chordsOf<T extends Note>(half: Chord<T>, beats: Grid): readonly Chord<T>[] {
  const each = inCells(half.placed, beats);
  const pitches = each.map(({ placed }) => new Set(placed.map(({ note }) => note.pitch)));
  const apart = pitches.every((here, index) => {
    const before = pitches[index - 1] ?? new Set();
    return here.size >= chordPitches && [...here].filter((pitch) => before.has(pitch)).length < shared;
  });
  return apart ? each : [half];
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
