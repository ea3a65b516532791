import { QUARTER } from './measures.js';
import type { WrittenSpan } from './split.js';
import type { Tuplet } from './written.js';

/** In a pulse, binary places are whole multiples of this; others need a tuplet. */
const BINARY = 3;

/**
 * The tuplets of one layer in one bar, in order.
 *
 * @param marks where an event begins or ends, rising
 * @param pulse the length of the pulses that divide the bar; marks divide them by 2, 3, and both
 */
export function tupletsOf(marks: readonly number[], bar: WrittenSpan, pulse: number): readonly Tuplet[] {
  if (marks.every((mark) => (mark - bar.start) % BINARY === 0)) return [];
  const found: Tuplet[] = [];
  const inPulse = new Map<number, number[]>();
  for (const mark of marks) {
    const start = bar.start + Math.floor((mark - bar.start) / pulse) * pulse;
    const known = inPulse.get(start);
    if (known) known.push(mark);
    else inPulse.set(start, [mark]);
  }
  for (let start = bar.start; start < bar.end; start += pulse) {
    const pair = broad(start, bar, pulse, inPulse);
    if (pair) {
      found.push(pair);
      start += pulse;
    } else found.push(...narrow(start, pulse, inPulse.get(start) ?? []));
  }
  return found;
}

/** Three quarters in the time of two, on two beats that begin at an even one. */
function broad(
  start: number,
  bar: WrittenSpan,
  pulse: number,
  inPulse: ReadonlyMap<number, readonly number[]>,
): Tuplet | undefined {
  const end = start + 2 * pulse;
  if (pulse !== QUARTER || (start - bar.start) % (2 * pulse) !== 0 || end > bar.end) return undefined;
  const first = (inPulse.get(start) ?? []).filter((mark) => mark > start);
  const second = inPulse.get(start + pulse) ?? [];
  const third = (2 * pulse) / 3;
  const fits = first.length === 1 && first[0] === start + third && second.length === 1;
  return fits && second[0] === start + 2 * third ? { start, end, num: 3, numbase: 2 } : undefined;
}

/** The tuplet of a pulse, or of the half of it that needs one. */
function narrow(start: number, length: number, marks: readonly number[]): readonly Tuplet[] {
  const inner = marks.filter((mark) => mark > start && mark < start + length);
  if (inner.every((mark) => (mark - start) % BINARY === 0)) return [];
  const half = start + length / 2;
  if (inner.includes(half)) {
    const halves = [narrow(start, length / 2, inner), narrow(half, length / 2, inner)];
    const [left, right] = halves;
    const many = partsIn(start, length, inner) > 6;
    if (many || left?.length === 0 || right?.length === 0) return halves.flat();
  }
  const num = partsIn(start, length, inner);
  return [{ start, end: start + length, num, numbase: (2 * num) / 3 }];
}

/** The coarsest division of a pulse that holds all the marks. */
function partsIn(start: number, length: number, marks: readonly number[]): number {
  return length / marks.reduce((step, mark) => commonDivisor(step, mark - start), length);
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
