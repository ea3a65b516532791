import type { Ladder } from '../../src/learn/ladder.js';
import type { LearnNotes } from '../../src/learn/notes.js';
import { forgotten, inventLadder, inventNotes, noisy, random, truth } from './invented.js';

/** Invented notes, the ladder that their labels come from, and what it gives without any fault. */
export interface Labelled {
  readonly notes: LearnNotes;
  readonly ladder: Ladder;
  readonly clean: Int32Array;
  readonly next: () => number;
}

export interface Faults {
  /** Share of labels replaced at random. */
  readonly noise?: number;
  /** Share of switches forgotten. */
  readonly forgotten?: number;
  /** Every switch a note late. */
  readonly late?: boolean;
}

export function labelled(seed: number, length: number, rules: number, faults: Faults = {}): Labelled {
  const next = random(seed * 7919);
  const notes = inventNotes(length, next);
  const ladder = inventLadder(notes, rules, next);
  const clean = truth(notes, ladder);
  const late = faults.late ? clean.map((label, row) => clean[row - 1] ?? label) : clean;
  const kept = faults.forgotten ? forgotten(late, faults.forgotten, next) : late;
  const label = noisy(kept, faults.noise ?? 0, Math.max(...clean) + 1, next);
  return { notes: { ...notes, label }, ladder, clean, next };
}

/** The share of fresh notes for which two ladders agree. */
export function agreement(a: Ladder, b: Ladder, next: () => number): number {
  const fresh = inventNotes(4000, next);
  const one = truth(fresh, a);
  const other = truth(fresh, b);
  return one.filter((articulation, row) => articulation === other[row]).length / fresh.length;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
