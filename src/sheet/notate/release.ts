import { lastWithin } from '../../midi/index.js';
import { pulseOf } from './division.js';
import { type Measure, QUARTER } from './measures.js';

/** What a release is written on. */
export interface Grid {
  readonly measures: readonly Measure[];
  /** Into how many equal parts a pulse is divided, by the unit at which it begins. */
  readonly parts: ReadonlyMap<number, number>;
}

/** Released notes of at least this length end on a beat where nothing else divides it. */
const LONG = 2 * QUARTER;

/** Releases come early rather than late: a part of the grid counts as held from two fifths of it on. */
const UP = 0.6;

/**
 * The place at which a note that sounds from `start` to `release` ends as it is written: on the beat's
 * grid, at least one part of the grid behind the onset. A beat without onsets is divided in two for a short note and
 * not at all for a long one.
 */
export function writtenEnd(start: number, release: number, grid: Grid): number {
  const { from, step } = stepAt(release, grid, release - start >= LONG ? 1 : 2);
  const end = from + Math.floor((release - from) / step + UP) * step;
  if (end > start) return end;
  const own = stepAt(start, grid, 2);
  return own.from + (Math.floor((start - own.from) / own.step) + 1) * own.step;
}

/**
 * The pulse around a place: where it begins, and the length of its parts.
 *
 * @param otherwise the parts of a quarter without onsets
 */
export function stepAt(
  at: number,
  { measures, parts }: Grid,
  otherwise: number,
): { readonly from: number; readonly step: number } {
  const measure = measureAt(measures, at);
  if (!measure) return { from: at, step: QUARTER };
  const pulse = pulseOf(measure.meter);
  const from = measure.start + Math.floor((at - measure.start) / pulse) * pulse;
  const count = parts.get(from) ?? (pulse < QUARTER ? 1 : otherwise);
  return { from, step: pulse / count };
}

/** The bar in which a place lies; the last one behind the end. */
export function measureAt(measures: readonly Measure[], at: number): Measure | undefined {
  return measures[
    Math.max(
      0,
      lastWithin(measures.length, (index) => measures[index]?.start ?? 0, at),
    )
  ];
}
