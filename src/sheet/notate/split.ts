import type { Division } from './division.js';
import { QUARTER } from './measures.js';
import { writtenValue } from './values.js';

/** A stretch of time within a bar. */
export interface WrittenSpan {
  readonly start: number;
  readonly end: number;
}

/**
 * Cuts a note or a rest into plain and dotted values, so that the bar's division stays visible (common practice, no
 * source; for the reasons see E. Gould, Behind Bars, 2011, "Grouping of note-values", from memory).
 *
 * @param stretch counted from the division's start
 */
export function split(stretch: WrittenSpan, division: Division, isRest: boolean): readonly WrittenSpan[] {
  const pieces: WrittenSpan[] = [];
  let rest: WrittenSpan | undefined = stretch;
  while (rest && rest.end > rest.start) rest = cut(rest, division, isRest, pieces);
  return pieces;
}

/** Writes the first part of a stretch and gives back what is left. */
function cut(
  stretch: WrittenSpan,
  division: Division,
  isRest: boolean,
  pieces: WrittenSpan[],
): WrittenSpan | undefined {
  const inner = boundaries(division).filter((at) => at > stretch.start && at < stretch.end);
  const [first] = inner;
  const last = inner.at(-1);
  if (first === undefined || last === undefined) {
    within(stretch, division, isRest, pieces);
    return undefined;
  }
  if (isRest ? isRestWhole(stretch, division) : isNoteWhole(stretch, division)) {
    pieces.push(stretch);
    return undefined;
  }
  const onBoundary = stretch.start === 0 || boundaries(division).includes(stretch.start);
  const at = onBoundary && !isRest ? last : first;
  pieces.push(...split({ start: stretch.start, end: at }, division, isRest));
  return { start: at, end: stretch.end };
}

/** Writes a stretch that lies within one part of the division. */
function within(stretch: WrittenSpan, division: Division, isRest: boolean, pieces: WrittenSpan[]): void {
  let start = 0;
  for (const child of division.children) {
    const end = start + child.length;
    if (stretch.start >= start && stretch.end <= end) {
      const inside = { start: stretch.start - start, end: stretch.end - start };
      for (const piece of split(inside, child, isRest))
        pieces.push({ start: piece.start + start, end: piece.end + start });
      return;
    }
    start = end;
  }
  pieces.push(stretch);
}

function boundaries({ children }: Division): readonly number[] {
  const found: number[] = [];
  let at = 0;
  for (const child of children) {
    at += child.length;
    found.push(at);
  }
  return found.slice(0, -1);
}

function isNoteWhole(stretch: WrittenSpan, division: Division): boolean {
  const { length, kind } = division;
  const value = writtenValue(stretch.end - stretch.start);
  if (!value) return false;
  const marks = [0, ...boundaries(division), length];
  const onMarks = marks.includes(stretch.start) && marks.includes(stretch.end);
  if (kind === 'compound') return onMarks;
  if (stretch.start === 0 || onMarks) return true;
  if (kind === 'pair') {
    if (stretch.start !== length / 4) return false;
    const syncopated = value.dots === 0 && stretch.end === 0.75 * length;
    return syncopated || (value.dots === 1 && stretch.end === length && length <= 2 * QUARTER);
  }
  if (kind !== 'triple') return false;
  const child = length / 3;
  const centre = (stretch.start + stretch.end) / 2;
  return (
    marks.includes(stretch.start) ||
    (value.dots === 0 && marks.includes(centre) && 2 * (centre - stretch.start) <= child)
  );
}

function isRestWhole(stretch: WrittenSpan, { length, kind }: Division): boolean {
  const value = writtenValue(stretch.end - stretch.start);
  if (!value) return false;
  const whole = stretch.start === 0 && stretch.end === length;
  if (kind === 'pair') return whole && value.dots === 0;
  if (kind === 'triple')
    return length <= 1.5 * QUARTER && stretch.start === 0 && (whole || stretch.end === (2 * length) / 3);
  return kind === 'compound' && whole;
}
