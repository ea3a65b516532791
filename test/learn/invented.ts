import { type Feature, features } from '../../src/learn/features.js';
import {
  articulationsOf,
  columnsOf,
  decideRules,
  type Ladder,
  type Rule,
  type Test,
} from '../../src/learn/ladder.js';
import type { LearnNotes } from '../../src/learn/notes.js';

/** Even numbers in [0, 1) from a seed (mulberry32, public domain). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const names = ['short', 'long', 'smooth', 'sharp', 'soft'];
const ppq = 480;
const bpm = 100;
const msPerTick = 60_000 / bpm / ppq;

/** Notes as a human might play them: phrases of one manner, note values with uneven timing, rests between phrases. */
export function inventNotes(length: number, next: () => number, pieces = 4): LearnNotes {
  const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  const tick: number[] = [];
  const end: number[] = [];
  const pitch: number[] = [];
  const velocity: number[] = [];
  const chord: number[] = [];
  let at = 0;
  let left = 0;
  let value = 240;
  let manner = 0.9;
  let loud = 70;
  let note = 60;
  for (let row = 0; row < length; row++) {
    if (left-- <= 0) {
      left = 3 + Math.floor(next() * 12);
      value = [120, 120, 160, 240, 240, 360, 480, 960][Math.floor(next() * 8)] ?? 240;
      manner = [0.25, 0.4, 0.6, 0.85, 0.95, 1.05][Math.floor(next() * 6)] ?? 0.9;
      loud = 35 + next() * 70;
      if (row > 0 && next() < 0.6) at += [120, 240, 480, 960][Math.floor(next() * 4)] ?? 240;
    }
    const length = value * (next() < 0.15 ? 2 : 1) * Math.exp(normal() * 0.05);
    note = Math.round(Math.min(84, Math.max(40, note + (next() < 0.15 ? 0 : normal() * 3))));
    tick.push(Math.round(at));
    end.push(Math.round(at + length * manner * Math.exp(normal() * 0.2)));
    pitch.push(note);
    velocity.push(Math.round(Math.min(127, Math.max(1, loud + normal() * 8))));
    chord.push(next() < 0.85 ? 1 : 2 + Math.floor(next() * 3));
    at += length;
  }
  return measured({ tick, end, pitch, velocity, chord, pieces });
}

interface Played {
  readonly tick: readonly number[];
  readonly end: readonly number[];
  readonly pitch: readonly number[];
  readonly velocity: readonly number[];
  readonly chord: readonly number[];
  readonly pieces: number;
}

/** The columns of played notes; no labels yet. Pieces are equal shares of the whole. */
export function measured({ tick, end, pitch, velocity, chord, pieces }: Played): LearnNotes {
  const length = tick.length;
  const piece = tick.map((_, row) => Math.floor((row * pieces) / length));
  const at = (column: readonly number[], row: number) => column[row] ?? 0;
  const first = (row: number) => row === 0 || piece[row] !== piece[row - 1];
  const last = (row: number) => row === length - 1 || piece[row] !== piece[row + 1];
  const each = (of: (row: number) => number) => Float64Array.from({ length }, (_, row) => of(row));
  const held = each((row) => at(end, row) - at(tick, row));
  const pace = each((row) => (last(row) ? (held[row] ?? 0) : at(tick, row + 1) - at(tick, row)));
  const ms = (column: Float64Array) => column.map((ticks) => ticks * msPerTick);
  let silentFrom = 0;
  const restBefore = each((row) => {
    if (first(row)) silentFrom = 0;
    const rest = first(row) ? Infinity : Math.max(0, at(tick, row) - silentFrom);
    silentFrom = Math.max(silentFrom, at(end, row));
    return rest;
  });
  const restAfter = each((row) => (last(row) ? Infinity : (restBefore[row + 1] ?? Infinity)));
  const overlaps = each((row) =>
    !last(row) && (at(tick, row + 1) - at(end, row)) * msPerTick <= 10 ? 1 : 0,
  );
  const repeats = each((row) => (!first(row) && pitch[row] === pitch[row - 1] ? 1 : 0));
  return {
    length,
    pieces: Array.from({ length: pieces }, (_, index) => ({
      name: `take ${index + 1}`,
      ticksPerWhole: 4 * ppq,
    })),
    piece,
    articulations: names,
    label: new Int32Array(length).fill(-1),
    tick,
    bar: tick.map((t) => Math.floor(t / (4 * ppq)) + 1),
    beat: tick.map((t) => (t % (4 * ppq)) / ppq + 1),
    heldMs: ms(held),
    heldTicks: held,
    paceMs: ms(pace),
    paceTicks: pace,
    heldShare: each((row) => (100 * (held[row] ?? 0)) / Math.max(1, pace[row] ?? 1)),
    restBeforeMs: ms(restBefore),
    restBeforeTicks: restBefore,
    restAfterMs: ms(restAfter),
    restAfterTicks: restAfter,
    velocity,
    pitch,
    leap: each((row) => (first(row) ? Number.NaN : Math.abs(at(pitch, row) - at(pitch, row - 1)))),
    chord,
    repeatsPrevious: repeats,
    repeatsNext: each((row) => (last(row) ? 0 : (repeats[row + 1] ?? 0))),
    overlapsNext: overlaps,
    overlapsPrevious: each((row) => (first(row) ? 0 : (overlaps[row - 1] ?? 0))),
  };
}

/** A test on a round bound that leaves notes on both sides. */
function inventTest(
  notes: LearnNotes,
  columnOf: (feature: Feature) => Float64Array,
  next: () => number,
): Test {
  for (;;) {
    const feature = features[Math.floor(next() ** 1.5 * features.length)];
    if (!feature) continue;
    const round = feature.bounds.filter(({ tier }) => tier < 2);
    const bound = round[Math.floor(next() * round.length)];
    if (!bound) continue;
    const test: Test =
      next() < (feature.unit === 'flag' ? 0.8 : 0.4)
        ? { feature, from: bound, below: null }
        : { feature, from: null, below: bound };
    const column = columnOf(feature);
    const inside = column.filter((value) => (test.from ? value >= bound.value : value < bound.value)).length;
    if (inside > 0.05 * notes.length && inside < 0.8 * notes.length) return test;
  }
}

/** A ladder in which each rule decides at least a share of the notes. */
export function inventLadder(notes: LearnNotes, rules: number, next: () => number, least = 0.03): Ladder {
  const columnOf = columnsOf(notes);
  const articulations = 3 + Math.floor(next() * 3);
  for (;;) {
    const ladder: Rule[] = [];
    for (let index = 0; index < rules; index++) {
      const tests =
        index === rules - 1
          ? []
          : Array.from({ length: next() < 0.7 ? 1 : 2 }, () => inventTest(notes, columnOf, next));
      const above = ladder.at(-1)?.articulation ?? -1;
      const drawn = Math.floor(next() * articulations);
      ladder.push({ tests, articulation: drawn === above ? (drawn + 1) % articulations : drawn });
    }
    const decided = decideRules(ladder, notes.length, columnOf);
    const shares = ladder.map((_, index) => decided.filter((rule) => rule === index).length / notes.length);
    if (shares.every((share) => share >= least)) return ladder;
  }
}

/** What a ladder gives each note. */
export function truth(notes: LearnNotes, ladder: Ladder): Int32Array {
  return articulationsOf(ladder, decideRules(ladder, notes.length, columnsOf(notes)));
}

/** Labels, a share of them replaced by others at random. */
export function noisy(
  labels: Int32Array,
  share: number,
  articulations: number,
  next: () => number,
): Int32Array {
  return labels.map((label) => {
    if (next() >= share) return label;
    return (label + 1 + Math.floor(next() * (articulations - 1))) % articulations;
  });
}

/** Labels where a share of the switches was forgotten: what sounded before goes on until the next switch. */
export function forgotten(labels: Int32Array, share: number, next: () => number): Int32Array {
  let sounding = labels[0] ?? 0;
  return labels.map((label, row) => {
    if (row > 0 && label !== labels[row - 1] && next() >= share) sounding = label;
    return sounding;
  });
}
