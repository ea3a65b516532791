import { columnsOf, decideRules, type Ladder } from './ladder.js';
import type { Learned } from './learn.js';
import type { LearnNotes } from './notes.js';
import { asksFractions } from './spelling.js';
import { steadyRules } from './steadiness.js';

/** A note of an example, in whole ms. */
export interface ExampleNote {
  readonly pitch: number;
  readonly heldMs: number;
  readonly paceMs: number;
  readonly velocity: number;
}

/** Successive notes of a piece, and what each was given there and must be given again. */
export interface LearnedExample {
  readonly notes: readonly ExampleNote[];
  /** Indices of articulations. */
  readonly expect: readonly number[];
  /** Quarter notes a minute, where the ladder asks by note values. */
  readonly bpm?: number;
  /** The row of the first note. */
  readonly row: number;
}

/** An example has so many notes at most. */
const longest = 5;

/** Candidates that are tried for each rule. */
const mostTried = 400;

/**
 * For each rule, successive notes in which it decides one as sounded, and in which all others too come out as they
 * sounded when the example is played by itself. A rule for which the notes have no such place has none.
 *
 * @param isSound what else an example has to be
 */
export function findExamples(
  learned: Learned,
  notes: LearnNotes,
  isSound: (example: LearnedExample) => boolean = () => true,
): readonly LearnedExample[] {
  const { ladder, decided, labels } = learned;
  const examples: LearnedExample[] = [];
  ladder.forEach(({ articulation }, index) => {
    if (examples.some((example) => decidesWithin(example, decided, index))) return;
    const rows: number[] = [];
    for (let row = 0; row < notes.length && rows.length < mostTried; row++)
      if (decided[row] === index && labels[row] === articulation) rows.push(row);
    const found = firstThatHolds(learned, notes, rows, isSound);
    if (found) examples.push(found);
  });
  return examples;
}

function decidesWithin({ row, notes }: LearnedExample, decided: Int32Array, rule: number): boolean {
  return notes.some((_, index) => decided[row + index] === rule);
}

function firstThatHolds(
  learned: Learned,
  notes: LearnNotes,
  rows: readonly number[],
  isSound: (example: LearnedExample) => boolean,
): LearnedExample | undefined {
  for (let size = 2; size <= longest; size++) {
    for (const row of rows) {
      for (let before = Math.min(1, size - 1); before < size; before++) {
        const example = exampleAt(learned, notes, row - before, size);
        if (example && holds(learned, example) && isSound(example)) return example;
      }
    }
  }
  return undefined;
}

/** The notes from a row on as an example; undefined where they are chords, of two pieces, or not as the ladder says. */
function exampleAt(
  { ladder, labels, decided }: Learned,
  notes: LearnNotes,
  first: number,
  size: number,
): LearnedExample | undefined {
  const rows = Array.from({ length: size }, (_, index) => first + index);
  const plain = rows.every(
    (row) =>
      row >= 0 &&
      notes.piece[row] === notes.piece[first] &&
      notes.chord[row] === 1 &&
      labels[row] === ladder[decided[row] ?? -1]?.articulation &&
      (notes.heldMs[row] ?? 0) >= 1 &&
      !mayBeChord(notes, row),
  );
  const bpm = tempoAt(notes, first);
  if (!plain || (asksFractions(ladder) && (bpm === undefined || bpm < 5 || bpm > 1000))) return undefined;
  return {
    notes: rows.map((row) => ({
      pitch: notes.pitch[row] ?? 0,
      heldMs: Math.round(notes.heldMs[row] ?? 0),
      paceMs: Math.round(notes.paceMs[row] ?? 0),
      velocity: notes.velocity[row] ?? 0,
    })),
    expect: rows.map((row) => labels[row] ?? 0),
    ...(asksFractions(ladder) && bpm !== undefined ? { bpm } : {}),
    row: first,
  };
}

/** The widest window within which notes are taken for a chord. Unit: ms. */
const chordWindow = 80;

function mayBeChord(notes: LearnNotes, row: number): boolean {
  return (notes.paceMs[row] ?? 0) <= chordWindow && (notes.heldMs[row] ?? 0) >= (notes.paceMs[row] ?? 0);
}

function tempoAt(notes: LearnNotes, row: number): number | undefined {
  const whole = (notes.paceTicks[row] ?? 0) / (notes.pieces[notes.piece[row] ?? 0]?.ticksPerWhole ?? 1);
  const ms = notes.paceMs[row] ?? 0;
  return whole > 0 && ms > 0 ? Math.round((240_000 * whole * 100) / ms) / 100 : undefined;
}

/** Whether an example played by itself gives what it expects, with and without steadiness. */
function holds({ ladder, steadiness }: Learned, example: LearnedExample): boolean {
  const played = playExample(example);
  const columnOf = columnsOf(played);
  return [0, steadiness].every((band) => {
    const rules = decided(ladder, played, columnOf, band);
    return example.expect.every(
      (articulation, index) => ladder[rules[index] ?? -1]?.articulation === articulation,
    );
  });
}

function decided(
  ladder: Ladder,
  played: LearnNotes,
  columnOf: ReturnType<typeof columnsOf>,
  band: number,
): Int32Array {
  return band > 0
    ? steadyRules(ladder, played, columnOf, band)
    : decideRules(ladder, played.length, columnOf);
}

/** An example's notes, measured as a map's own test measures them. Ticks are microseconds. */
export function playExample({ notes, bpm = 120 }: LearnedExample): LearnNotes {
  const length = notes.length;
  const at: number[] = [];
  let now = 0;
  for (const { paceMs } of notes) {
    at.push(now);
    now += paceMs;
  }
  const each = (of: (note: ExampleNote, row: number) => number) => Float64Array.from(notes, of);
  const ticks = (column: Float64Array) => column.map((ms) => ms * 1000);
  const held = each(({ heldMs }) => heldMs);
  const pace = each(({ heldMs, paceMs }, row) => (row === length - 1 ? heldMs : paceMs));
  let silentFrom = 0;
  const restAfter = each(({ heldMs }, row) => {
    silentFrom = Math.max(silentFrom, (at[row] ?? 0) + heldMs);
    return row === length - 1 ? Infinity : Math.max(0, (at[row + 1] ?? 0) - silentFrom);
  });
  const restBefore = each((_, row) => (row === 0 ? Infinity : (restAfter[row - 1] ?? Infinity)));
  const overlaps = each(({ heldMs, paceMs }, row) => (row < length - 1 && paceMs - heldMs <= 10 ? 1 : 0));
  const repeats = each(({ pitch }, row) => (notes[row - 1]?.pitch === pitch ? 1 : 0));
  return {
    length,
    pieces: [{ name: '', ticksPerWhole: 4 * Math.round(60_000_000 / bpm) }],
    piece: new Int32Array(length),
    articulations: [],
    label: new Int32Array(length),
    tick: ticks(Float64Array.from(at)),
    bar: new Int32Array(length),
    beat: new Int32Array(length),
    heldMs: held,
    heldTicks: ticks(held),
    paceMs: pace,
    paceTicks: ticks(pace),
    heldShare: each((_, row) => (100 * (held[row] ?? 0)) / (pace[row] ?? 1)),
    restBeforeMs: restBefore,
    restBeforeTicks: ticks(restBefore),
    restAfterMs: restAfter,
    restAfterTicks: ticks(restAfter),
    velocity: each(({ velocity }) => velocity),
    pitch: each(({ pitch }) => pitch),
    leap: each(({ pitch }, row) => (row === 0 ? Number.NaN : Math.abs(pitch - (notes[row - 1]?.pitch ?? 0)))),
    chord: new Int32Array(length).fill(1),
    repeatsPrevious: repeats,
    repeatsNext: each((_, row) => repeats[row + 1] ?? 0),
    overlapsNext: overlaps,
    overlapsPrevious: each((_, row) => (row === 0 ? 0 : (overlaps[row - 1] ?? 0))),
  };
}
