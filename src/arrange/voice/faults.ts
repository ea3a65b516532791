import { lowIntervalLimits } from '../../music/index.js';
import type { ChordToVoice } from './chords.js';

const octave = 12;
/** The bass may lie apart, but no further than this: two octaves. */
const widestBelow = 24;

/**
 * The lowest lower note of each interval within an octave, as MIDI notes: those that `inspect` looks at, and the wider
 * ones of the same kind of table (a music dealer's glossary, "Low Interval Limit"; it prints middle C as C3).
 */
const limits: ReadonlyMap<number, number> = new Map([
  ...lowIntervalLimits,
  [6, 35], // tritone, B1
  [7, 37], // fifth, C♯2
  [8, 41], // sixths and sevenths, F2
  [9, 41],
  [10, 41],
  [11, 41],
]);

/** Whether an interval lies lower than it is clear. */
export function isMuddy(lower: number, upper: number): boolean {
  return lower < (limits.get(upper - lower) ?? 0);
}

/** Whether two neighbouring pitches lie too far apart; from the lowest up to the next more is usual. */
export function isGap(lower: number, upper: number, isLowest: boolean): boolean {
  return upper - lower > (isLowest ? widestBelow : octave);
}

/**
 * How many things a layout has that no layout is to have: intervals below their limit, more than an octave
 * between upper voices, a doubled leading tone, a third that outnumbers the root, and, in a chord of three tones or more,
 * nothing but fifths or fourths.
 *
 * @param heights rising, each once
 * @param pitches as the voices have them
 */
export function faultsOf(
  heights: readonly number[],
  pitches: readonly number[],
  { tones, leading, thirds }: ChordToVoice,
): number {
  let faults = 0;
  let aboveBass = false;
  heights.slice(1).forEach((upper, index) => {
    const lower = heights[index] ?? upper;
    if (isMuddy(lower, upper)) faults += 1;
    // Octaves of the bass on the bass are part of it.
    if (isGap(lower, upper, !aboveBass)) faults += 1;
    if (upper - lower !== octave) aboveBass = true;
  });
  const count = (pitchClass: number) => pitches.filter((pitch) => pitch % 12 === pitchClass).length;
  for (const pitchClass of leading) if (count(pitchClass) > 1) faults += 1;
  for (const [third, root] of thirds) if (count(third) > Math.max(1, count(root))) faults += 1;
  if (tones.size > 2 && isBare(heights)) faults += 1;
  return faults;
}

/** Fifths, with or without octaves; or more than two pitches that are fourths and octaves. */
function isBare(heights: readonly number[]): boolean {
  const above = new Set(heights.map((pitch) => (pitch - (heights[0] ?? 0)) % octave));
  above.delete(0);
  return above.size === 1 && (above.has(7) || (above.has(5) && heights.length > 2));
}
