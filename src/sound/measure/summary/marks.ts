import { dynamicMarks, identityLevels, type LevelTable } from '../keyslip.js';
import type { MarkValue } from '../result.js';

/** A controller value, or a velocity, and its loudness. */
export interface LevelPoint {
  readonly value: number;
  readonly dB: number;
}

const highest = 127;

/** The marks that are always given; others only where the map has them. */
const given = ['pp', 'p', 'mp', 'mf', 'f', 'ff'] as const;

/** A controller that moves the level by less than this does not shape it. Unit: dB. */
const leastRange = 3;

/**
 * How far a mark lies from mf: what the project's own scale of values has, heard by the General MIDI law of
 * 40 · log10(value/127). The same in every library, so that marks mean the same. Unit: dB.
 */
export function markOffset(mark: string): number {
  const of = (name: string) => identityLevels.get(name) ?? Number.NaN;
  return 40 * Math.log10(of(mark) / of('mf'));
}

/**
 * The values at which the marks stand in fixed distances of loudness, and the loudness of mf. Which loudness mf is cannot
 * be heard: it is where the map has put it, or, where the map has not, so far below the loudest that the loudest value is
 * a little over fff.
 *
 * @param own the map's own levels
 */
export function marksOf(
  points: readonly LevelPoint[],
  own: LevelTable | undefined,
): { readonly marks: readonly MarkValue[]; readonly referenceLevel: number } | undefined {
  const curve = rising(points);
  const [first, last] = [curve[0], curve.at(-1)];
  if (!first || !last || last.dB - first.dB < leastRange) return undefined;
  const mf = own?.get('mf');
  const referenceLevel =
    mf === undefined
      ? levelAt(curve, highest) - 40 * Math.log10(highest / (identityLevels.get('mf') ?? highest))
      : levelAt(curve, mf);
  const marks = dynamicMarks
    .filter((mark) => (given as readonly string[]).includes(mark) || own?.has(mark) === true)
    .map((mark): MarkValue => {
      const wanted = referenceLevel + markOffset(mark);
      const exact = valueAt(curve, wanted);
      const value = Math.max(1, Math.min(highest, Math.round(exact)));
      const dB = levelAt(curve, value);
      return { mark, value, dB, isReached: Math.abs(dB - wanted) < 1 };
    });
  return { marks, referenceLevel };
}

/** Loudness at a value: straight in the value's logarithm, as the General MIDI law is. Beyond both ends it goes on. */
export function levelAt(curve: readonly LevelPoint[], value: number): number {
  const [a, b] = around(curve, (point) => point.value <= value);
  if (!a) return Number.NaN;
  if (!b) return a.dB;
  return a.dB + ((b.dB - a.dB) * Math.log(Math.max(0.5, value) / a.value)) / Math.log(b.value / a.value);
}

function valueAt(curve: readonly LevelPoint[], dB: number): number {
  const [a, b] = around(curve, (point) => point.dB <= dB);
  if (!a) return Number.NaN;
  if (!b || b.dB === a.dB) return a.value;
  return a.value * (b.value / a.value) ** ((dB - a.dB) / (b.dB - a.dB));
}

/** The two points between which a place lies, or the two nearest to it. */
function around(
  curve: readonly LevelPoint[],
  isBefore: (point: LevelPoint) => boolean,
): readonly [LevelPoint | undefined, LevelPoint | undefined] {
  const count = curve.findIndex((point) => !isBefore(point));
  const index = Math.max(0, Math.min(curve.length - 2, (count < 0 ? curve.length : count) - 1));
  return [curve[index], curve[index + 1]];
}

/** The nearest levels that never fall: neighbours that do are put to their mean (Ayer et al. 1955, pooling violators). */
export function rising(points: readonly LevelPoint[]): readonly LevelPoint[] {
  const pools: { readonly values: number[]; sum: number }[] = [];
  for (const { value, dB } of points) {
    pools.push({ values: [value], sum: dB });
    for (
      let [before, last] = pools.slice(-2);
      before && last && mean(before) >= mean(last);
      [before, last] = pools.slice(-2)
    ) {
      pools.pop();
      before.values.push(...last.values);
      before.sum += last.sum;
    }
  }
  return pools.flatMap((pool) => pool.values.map((value) => ({ value, dB: mean(pool) })));
}

function mean({ values, sum }: { readonly values: readonly number[]; readonly sum: number }): number {
  return sum / values.length;
}
