import { type Fragment, refersTo, type Tree } from '../../yaml/index.js';
import { field, number, pitch, present, type Source } from '../source/index.js';

/** Both bounds inclusive; either may be absent. */
export interface NumberRange {
  readonly from?: number;
  readonly to?: number;
}

/** How the numbers of a range are written: their fragment of the schema, and their reading. */
export interface Notation {
  readonly schema: Fragment;
  read(source: Source, tree: Tree | undefined): number | undefined;
}

export const pitches: Notation = { schema: refersTo('pitch'), read: pitch };

export function wholeNumbers(minimum: number, maximum: number): Notation {
  return { schema: { type: 'integer', minimum, maximum }, read: number };
}

/** The fragment of a range of numbers. */
export function numberRangeSchema<D extends string>(description: D, { schema }: Notation) {
  return {
    description,
    type: 'object',
    additionalProperties: false,
    minProperties: 1,
    properties: {
      from: { ...schema, description: 'The least that fits (inclusive).' },
      to: { ...schema, description: 'The most that fits (inclusive).' },
    },
  };
}

export function readNumberRange(source: Source, tree: Tree, { read }: Notation): NumberRange {
  const [fromTree, toTree] = [field(tree, 'from'), field(tree, 'to')];
  const range = present<NumberRange>({ from: read(source, fromTree), to: read(source, toTree) });
  if (range.from !== undefined && range.to !== undefined && range.from > range.to)
    source.report(
      'range-reversed',
      tree,
      `nothing is at least ${String(fromTree?.data)} and at most ${String(toTree?.data)}`,
      'from is the least that fits, to the most; write the lower one first',
    );
  return range;
}

/** Whether a number lies in a range; both bounds inclusive. */
export function numberFits({ from, to }: NumberRange, value: number): boolean {
  return (from === undefined || value >= from) && (to === undefined || value <= to);
}

/** `3 to 5`, `up to 5`, `from 3`. */
export function formatNumberRange({ from, to }: NumberRange): string {
  if (from !== undefined && to !== undefined) return from === to ? `${from}` : `${from} to ${to}`;
  if (to !== undefined) return `up to ${to}`;
  return from === undefined ? 'any' : `from ${from}`;
}
