/** Sets of pitch classes as numbers: bit 0 is C, or a root; bit 11 the class below it. */

const all = 0xfff;
const twelve = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

/** @param semitones pitches or intervals, in any octave from 0 up */
export function setOf(semitones: readonly number[]): number {
  return semitones.reduce((set, one) => set | (1 << (one % 12)), 0);
}

/** The same set counted from a root, 0–11, as bit 0. */
export function setAbove(root: number, set: number): number {
  return ((set >> root) | (set << (12 - root))) & all;
}

/** How many classes are in a set. */
export function countOf(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** The classes of a set, rising. */
export function classesOf(set: number): readonly number[] {
  return twelve.filter((pitchClass) => set & (1 << pitchClass));
}
