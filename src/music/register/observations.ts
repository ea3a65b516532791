import type { PitchRange } from '../instruments/index.js';
import { type Placed, type Run, runsWhere } from './runs.js';
import { thirdOf } from './thirds.js';
import type { RegisterObservation, Role } from './types.js';

/** The bars from which on each is told: it passes unnoticed where it is short. Own choice. */
const least = { 'low melody': 2, 'high bass': 2, 'high line': 4 } as const;

/**
 * What a composer may want to consider about where a part lies: a melody in its dark third with another part close
 * beneath it; a bass in its bright third; any other line that stays in its bright third.
 *
 * @param under for each note, the part that sounds close beneath it and as loud; −1 where none does
 */
export function observationsOf(
  notes: readonly Placed[],
  role: Role,
  range: PitchRange,
  under: readonly number[],
): readonly RegisterObservation[] {
  const bright = ({ pitch }: Placed) => thirdOf(pitch, range) === 'bright';
  const covered = ({ pitch }: Placed, index: number) =>
    thirdOf(pitch, range) === 'dark' && (under[index] ?? -1) >= 0;
  const high = role === 'bass' ? 'high bass' : 'high line';
  const found = runsWhere(notes, bright, least[high]).map((run) => told(high, notes, run));
  if (role !== 'melody') return found;
  const low = runsWhere(notes, covered, least['low melody']).map((run): RegisterObservation => {
    return {
      ...told('low melody', notes, run),
      under: maxCommon(run.notes.map((index) => under[index] ?? -1)),
    };
  });
  return [...low, ...found].sort((a, b) => (a.bars?.from ?? 0) - (b.bars?.from ?? 0));
}

function told(
  what: RegisterObservation['what'],
  notes: readonly Placed[],
  { bars, notes: of }: Run,
): RegisterObservation {
  const pitches = of.map((index) => notes[index]?.pitch ?? 0);
  return { what, bars, ...extremes(pitches) };
}

/** The lowest and the highest of pitches. */
export function extremes(pitches: readonly number[]): { readonly lowest: number; readonly highest: number } {
  return {
    lowest: pitches.reduce((least, pitch) => Math.min(least, pitch), 127),
    highest: pitches.reduce((most, pitch) => Math.max(most, pitch), 0),
  };
}

function maxCommon(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const most = [...counts].reduce((best, one) => (one[1] > best[1] ? one : best), [-1, 0]);
  return most[0];
}
