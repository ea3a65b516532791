import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import type { Rule } from '../types.js';
import type { MapCheck } from './check.js';
import { coverage } from './covered.js';
import { type Compare, comparer, isImpossible } from './implies.js';

/**
 * dead-rule: a rule that can never fire. Certain cases only: a rule behind one without conditions, one that contradicts
 * itself, one that asks for at least as much as a rule above it, and one that the rules above it cover between them.
 */
export const deadRules: MapCheck = ({ rules }, { isSure }) => {
  const compare = comparer();
  const covered = coverage();
  const above: Rule[] = [];
  const same = new Map<string, Rule>();
  let catchAll: Rule | undefined;
  return rules.flatMap((rule, index): readonly Diagnostic[] => {
    if (catchAll) return [taken(rule, ruleOn(catchAll))];
    if (!isSure(rule)) return [];
    const isOpen = !rule.when && !rule.marked;
    // The last rule is there for whatever might be left, even where nothing is.
    const isLast = isOpen && index === rules.length - 1;
    if (isOpen) catchAll = rule;
    if (isLast) return [];
    if (rule.when && isImpossible(rule.when)) return [impossible(rule)];
    const shape = shapeOf(rule);
    const taker = same.get(shape) ?? above.find((other) => isTakenBy(rule, other, compare));
    const isCovered = covered.takes(rule);
    covered.add(rule);
    if (taker) return [taken(rule, ruleOn(taker))];
    above.push(rule);
    same.set(shape, rule);
    return isCovered ? [taken(rule, 'the rules above it together')] : [];
  });
};

function isTakenBy(rule: Rule, other: Rule, { implies }: Compare): boolean {
  const { marked, when } = other;
  if (marked && !rule.marked?.every((mark) => marked.includes(mark))) return false;
  return !when || (rule.when !== undefined && implies(rule.when, when));
}

function shapeOf({ marked, when }: Rule): string {
  return JSON.stringify([marked ? [...marked].sort() : null, when ?? null]);
}

function ruleOn({ place }: Rule): string {
  return `the rule on line ${place.kind === 'text' ? place.line : 0}`;
}

function taken(rule: Rule, taker: string): Diagnostic {
  return dead(
    rule,
    `this rule can never fire: every note that fits it is taken by ${taker}`,
    'the first rule that fits decides; move this one up, or take it out',
  );
}

function impossible(rule: Rule): Diagnostic {
  return dead(
    rule,
    'this rule can never fire: no note can be all that it asks for',
    'see that its conditions do not contradict each other; any: [...] is for one or the other',
  );
}

function dead(rule: Rule, message: string, hint: string): Diagnostic {
  return diagnostic('dead-rule', rule.place, message, hint);
}
