import type { AllOf } from './all.js';
import type { AnyOf } from './any.js';
import type { MeasuredKind } from './kind.js';
import type { measuredKinds } from './list.js';
import type { Not } from './not.js';

type ConditionOf<K> = K extends MeasuredKind<infer C> ? C : never;

/** A condition that asks something of the note itself. */
export type MeasuredCondition = ConditionOf<(typeof measuredKinds)[number]>;

/** One condition of a rule. `all` with no members always holds. */
export type Condition = MeasuredCondition | AnyOf<Condition> | AllOf<Condition> | Not<Condition>;
