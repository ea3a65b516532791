import type { Line, MeasuredNote } from '../../midi/index.js';
import type { Condition, ConditionKey } from '../types.js';

/** The condition with a given key. */
export type ConditionOf<K extends ConditionKey> = Condition extends infer C
  ? C extends { readonly key: ConditionKey }
    ? K extends C['key']
      ? C & { readonly key: K }
      : never
    : never
  : never;

/** Whether a note fits. The note may be one of the line, or such a note with another held time or pace. */
export type Fits = (note: MeasuredNote) => boolean;

/** Binds any condition to a line; handed to the conditions that are made of others. */
export type Bind = (condition: Condition, line: Line) => Fits;

/** One kind of condition: how it is tested, and how it is said. */
export interface ConditionKind<K extends ConditionKey> {
  readonly key: K;
  /** The name of its fragment in the `$defs` of `schemas/map.schema.json`. */
  readonly fragment: `when-${K}`;
  bind(condition: ConditionOf<K>, line: Line, bind: Bind): Fits;
  /** The measured value and what was asked of it: `held 182 ms (130ms to below 320ms)`. */
  say(
    condition: ConditionOf<K>,
    note: MeasuredNote,
    say: (condition: Condition, note: MeasuredNote) => string,
  ): string;
}
