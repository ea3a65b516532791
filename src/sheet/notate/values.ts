import { WHOLE } from './measures.js';

/** A written value: MEI's `dur`, and how many dots. */
export interface Value {
  readonly dur: string;
  readonly dots: 0 | 1;
}

const values: ReadonlyMap<number, Value> = new Map(
  ['breve', '1', '2', '4', '8', '16', '32', '64', '128', '256', '512', '1024'].flatMap((dur, index) => {
    const length = (2 * WHOLE) / 2 ** index;
    const plain: readonly [number, Value] = [length, { dur, dots: 0 }];
    const dotted: readonly [number, Value] = [1.5 * length, { dur, dots: 1 }];
    return Number.isInteger(1.5 * length) && index < 11 ? [plain, dotted] : [plain];
  }),
);

/** The plain or dotted value of a length; undefined where there is none. */
export function writtenValue(length: number): Value | undefined {
  return values.get(length);
}
