// The conditions of rules, one file each.
import type { Line, MeasuredNote } from '../../midi/index.js';
import type { Condition, ConditionKey } from '../types.js';
import { all } from './all.js';
import { any } from './any.js';
import { chord } from './chord.js';
import { held } from './held.js';
import type { ConditionKind, Fits } from './kind.js';
import { leap } from './leap.js';
import { not } from './not.js';
import { overlapsNext } from './overlaps-next.js';
import { overlapsPrevious } from './overlaps-previous.js';
import { pace } from './pace.js';
import { pitch } from './pitch.js';
import { repeatsPrevious } from './repeats-previous.js';
import { restAfter } from './rest-after.js';
import { restBefore } from './rest-before.js';
import { run } from './run.js';
import { velocity } from './velocity.js';

/** Every kind of condition, by its key in a map. */
export const conditions: { readonly [K in ConditionKey]: ConditionKind<K> } = {
  held,
  pace,
  'rest-before': restBefore,
  'rest-after': restAfter,
  'overlaps-next': overlapsNext,
  'overlaps-previous': overlapsPrevious,
  velocity,
  pitch,
  leap,
  'repeats-previous': repeatsPrevious,
  run,
  chord,
  any,
  all,
  not,
};

/** A test of a line's notes against a condition. */
export function bindCondition(condition: Condition, line: Line): Fits {
  return kindOf(condition).bind(condition, line, bindCondition);
}

/** What a condition measured on a note, in words. */
export function formatCondition(condition: Condition, note: MeasuredNote): string {
  return kindOf(condition).say(condition, note, formatCondition);
}

/** The kind with the condition's own key, seen as one that takes any condition: the key ties the two together. */
function kindOf(condition: Condition): ConditionKind<ConditionKey> {
  return conditions[condition.key] as ConditionKind<ConditionKey>;
}
