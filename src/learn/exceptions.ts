import type { LearnNotes } from './notes.js';

/** A note that the ladder gives another articulation than sounded there. */
export interface Exception {
  readonly row: number;
  /** Index of the rule that decides it. */
  readonly rule: number;
  /** Indices of articulations. */
  readonly sounded: number;
  readonly says: number;
}

/** Exceptions that stand in a row, or one alone. */
export interface Stretch {
  readonly exceptions: readonly Exception[];
  /**
   * `forgotten`: what sounded before goes on through several notes, as if a switch had been forgotten; `late`: the
   * articulation that the ladder gives comes with the next note; `single`: neither.
   */
  readonly looks: 'forgotten' | 'late' | 'single' | 'row';
}

/** Where the labels and the ladder differ, in the order of the music; labels that are not known are no exceptions. */
export function findExceptions(
  labels: Int32Array,
  says: Int32Array,
  decided: Int32Array,
): readonly Exception[] {
  const exceptions: Exception[] = [];
  labels.forEach((sounded, row) => {
    const given = says[row] ?? -1;
    if (sounded >= 0 && sounded !== given)
      exceptions.push({ row, rule: decided[row] ?? -1, sounded, says: given });
  });
  return exceptions;
}

/** Groups exceptions that follow one another with one articulation sounding. */
export function stretchesOf(
  exceptions: readonly Exception[],
  notes: LearnNotes,
  labels: Int32Array,
): readonly Stretch[] {
  const groups: Exception[][] = [];
  for (const exception of exceptions) {
    const before = groups.at(-1)?.at(-1);
    const follows =
      before !== undefined &&
      before.row === exception.row - 1 &&
      before.sounded === exception.sounded &&
      notes.piece[before.row] === notes.piece[exception.row];
    if (follows) groups.at(-1)?.push(exception);
    else groups.push([exception]);
  }
  return groups.map((group) => ({ exceptions: group, looks: looksOf(group, notes, labels) }));
}

function looksOf(group: readonly Exception[], notes: LearnNotes, labels: Int32Array): Stretch['looks'] {
  const [first] = group;
  const last = group.at(-1);
  if (!first || !last) return 'single';
  const inPiece = (row: number) =>
    row >= 0 && row < notes.length && notes.piece[row] === notes.piece[first.row];
  const goesOn = inPiece(first.row - 1) && labels[first.row - 1] === first.sounded;
  if (goesOn && group.length > 1) return 'forgotten';
  if (goesOn && inPiece(last.row + 1) && labels[last.row + 1] === last.says) return 'late';
  return group.length > 1 ? 'row' : 'single';
}
