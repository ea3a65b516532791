import { type Meter, QUARTER, WHOLE } from './measures.js';

/** A stretch of time and the stretches that it divides into, in order; `children` is empty for the shortest. */
export interface Division {
  readonly length: number;
  /** `pair` and `triple` have equal parts; `compound` has dotted beats as parts. */
  readonly kind: 'pair' | 'triple' | 'compound' | 'group' | 'leaf';
  readonly children: readonly Division[];
}

/** The 1024th note. */
const SHORTEST = 3;

const halves = new Map<number, Division>();

/** A stretch that divides by two again and again. */
export function binary(length: number): Division {
  const known = halves.get(length);
  if (known) return known;
  const half = length / 2;
  const divides = half >= SHORTEST && Number.isInteger(half);
  const made: Division = divides
    ? { length, kind: 'pair', children: [binary(half), binary(half)] }
    : { length, kind: 'leaf', children: [] };
  halves.set(length, made);
  return made;
}

/** A stretch of three equal parts, which divide by two. */
export function ternary(length: number): Division {
  const third = binary(length / 3);
  return { length, kind: 'triple', children: [third, third, third] };
}

/** Meters of dotted beats: 6, 9, 12 … of a lower number of 4 or more (common practice, no source). */
export function isCompound({ count, unit }: Meter): boolean {
  return count > 3 && count % 3 === 0 && unit >= 4;
}

/** How a bar divides into beats, and beats into their parts. */
export function divisionOf(meter: Meter): Division {
  const beat = WHOLE / meter.unit;
  if (isCompound(meter)) return joined(Array(meter.count / 3).fill(ternary(3 * beat)), 'compound');
  const beats: Division[] = Array(meter.count).fill(binary(beat));
  if (meter.count === 3) return ternary(3 * beat);
  if (Number.isInteger(Math.log2(meter.count))) return joined(beats, 'pair');
  return group(grouping(meter).map((count) => (count === 3 ? ternary(3 * beat) : binary(2 * beat))));
}

/** Twos and a three at the end; five quarters or longer as three and two (common practice, no source). */
function grouping({ count, unit }: Meter): readonly number[] {
  if (count === 5 && unit <= 4) return [3, 2];
  const twos: number[] = Array(count % 2 === 0 ? count / 2 : (count - 3) / 2).fill(2);
  return count % 2 === 0 ? twos : [...twos, 3];
}

function joined(parts: readonly Division[], kind: 'pair' | 'compound'): Division {
  const [only] = parts;
  if (parts.length === 1 && only) return only;
  if (parts.length % 2 !== 0 || parts.length === 2) return { length: sum(parts), kind, children: parts };
  const half = parts.length / 2;
  return {
    length: sum(parts),
    kind,
    children: [joined(parts.slice(0, half), kind), joined(parts.slice(half), kind)],
  };
}

function group(children: readonly Division[]): Division {
  return { length: sum(children), kind: 'group', children };
}

function sum(parts: readonly Division[]): number {
  return parts.reduce((total, { length }) => total + length, 0);
}

/** The length of the pulse on which a grid is sought: the beat, but no longer than a quarter. */
export function pulseOf(meter: Meter): number {
  return Math.min(QUARTER, WHOLE / meter.unit);
}

/** The stretches of a bar that are beamed together: a quarter, or three eighths; from the bar's start. */
export function beamSpans(
  division: Division,
  start = 0,
): readonly { readonly start: number; readonly end: number }[] {
  const together =
    division.length <= QUARTER || (division.kind === 'triple' && division.length <= 1.5 * QUARTER);
  if (together || division.children.length === 0) return [{ start, end: start + division.length }];
  let at = start;
  return division.children.flatMap((child) => {
    const spans = beamSpans(child, at);
    at += child.length;
    return spans;
  });
}
