import type { Diagnostic } from '../../../model/diagnostic.js';
import type { Condition, Rule } from '../../../model/map.js';
import { implies } from './implies.js';
import type { MapCheck } from './index.js';
import { type Interval, intervalOf, isCovered, unionKey } from './intervals.js';

/**
 * dead-rule: a rule that can never fire, because rules above it take every note that it would. Certain cases only: a
 * rule behind one without conditions, one that asks for at least as much as a rule above it, and one whose only
 * condition is a range that the rules above it cover between them.
 */
export const deadRules: MapCheck = ({ rules }) => {
  const covered = new Map<string, Interval[]>();
  const simple = new Map<string, Rule>();
  const diagnostics: Diagnostic[] = [];
  const above: Rule[] = [];
  for (const rule of rules) {
    const same = simple.get(shapeOf(rule));
    const taker = same ?? takerOf(rule, above);
    const interval = rule.marked ? undefined : intervalOf(rule.when);
    const union = interval && covered.get(unionKey(interval));
    if (taker) diagnostics.push(dead(rule, `the rule on line ${lineOf(taker)}`));
    else if (interval && union && isCovered(interval, union))
      diagnostics.push(dead(rule, 'the rules above it together'));
    if (interval) covered.set(unionKey(interval), [...(union ?? []), interval]);
    simple.set(shapeOf(rule), same ?? rule);
    if (above.length < mostCompared) above.push(rule);
  }
  return diagnostics;
};

/** Each rule is compared with this many above it, so that very long maps are still checked at once. */
const mostCompared = 60;

function takerOf(rule: Rule, above: readonly Rule[]): Rule | undefined {
  return above.find((other) => {
    const marksFit = !other.marked || (rule.marked?.every((mark) => other.marked?.includes(mark)) ?? false);
    return marksFit && (!other.when || (rule.when !== undefined && implies(rule.when, other.when)));
  });
}

function shapeOf({ marked, when }: Rule): string {
  return JSON.stringify([marked ? [...marked].sort() : null, when ?? (null as Condition | null)]);
}

function lineOf({ place }: Rule): number {
  return place.kind === 'text' ? place.line : 0;
}

function dead(rule: Rule, taker: string): Diagnostic {
  return {
    code: 'dead-rule',
    severity: 'warning',
    place: rule.place,
    message: `this rule can never fire: every note that fits it is taken by ${taker}`,
    hint: 'the first rule that fits decides; move this one up, or take it out',
  };
}
