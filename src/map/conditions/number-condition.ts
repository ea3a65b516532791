import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredKind } from './kind.js';
import {
  formatNumberRange,
  type Notation,
  type NumberRange,
  numberFits,
  numberRangeSchema,
  readNumberRange,
} from './number-range.js';

export interface NumberCondition<K extends string> {
  readonly key: K;
  readonly range: NumberRange;
}

/** What one kind of range of whole numbers has of its own. */
interface Told {
  readonly description: string;
  readonly example: { readonly from?: number | string; readonly to?: number | string };
  readonly notation: Notation;
  /** The least and the greatest number that there may be. */
  readonly numbers: readonly [number, number];
  /** null where a note has no such number, and fits no range. */
  measure(note: MeasuredNote): number | null;
  /** What is said of a note without such a number; absent where every note has one. */
  readonly without?: string;
}

/** A kind of condition that asks whether a whole number lies in a range. Its key, without hyphens, is what is said. */
export function numberCondition<K extends string>(
  key: K,
  { description, example, notation, numbers: [least, most], measure, without }: Told,
): MeasuredKind<NumberCondition<K>> {
  const words = key.replaceAll('-', ' ');
  const whole = { from: least, end: most + 1 };
  return {
    key,
    schema: { ...numberRangeSchema(description, notation), description, examples: [example] },
    read: (source, tree) => ({ key, range: readNumberRange(source, tree, notation) }),
    bind:
      ({ range }) =>
      (note) => {
        const value = measure(note);
        return value !== null && numberFits(range, value);
      },
    format: ({ range }, note) => `${words} ${measure(note) ?? without} (${formatNumberRange(range)})`,
    interval: ({ range: { from, to } }) => ({
      measure: key,
      from: Math.max(whole.from, from ?? whole.from),
      end: Math.min(whole.end, (to ?? whole.end) + 1),
      ...(without === undefined ? { whole } : {}),
    }),
    implies: () => false,
    durations: () => [],
    bounds: () => [],
  };
}
