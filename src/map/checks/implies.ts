import type { Condition } from '../types.js';
import { type Interval, intervalOf, isEmpty, liesIn } from './intervals.js';

/** Compares conditions. Each may say no where the answer is yes, never the reverse. */
export interface Compare {
  /** Whether every note that fits `narrow` fits `wide`. */
  implies(narrow: Condition, wide: Condition): boolean;
}

/**
 * Compares up to so many pairs of conditions, and says no to the rest: conditions inside conditions could be made to
 * take for ever.
 */
export function comparer(most = 3_000_000): Compare {
  const texts = new Map<Condition, string>();
  const intervals = new Map<Condition, Interval | undefined>();
  let left = most;
  const textOf = (condition: Condition): string => {
    const text = texts.get(condition) ?? JSON.stringify(condition);
    texts.set(condition, text);
    return text;
  };
  const interval = (condition: Condition): Interval | undefined => {
    if (!intervals.has(condition)) intervals.set(condition, intervalOf(condition));
    return intervals.get(condition);
  };
  const single = (narrow: Condition, wide: Condition): boolean => {
    const [inner, outer] = [interval(narrow), interval(wide)];
    if (inner && outer) return liesIn(inner, outer);
    if (narrow.key === 'run' && wide.key === 'run')
      return (
        narrow.notes >= wide.notes &&
        implies({ key: 'pace', range: narrow.pace }, { key: 'pace', range: wide.pace })
      );
    return narrow.key === wide.key && textOf(narrow) === textOf(wide);
  };
  const implies = (narrow: Condition, wide: Condition): boolean => {
    left -= 1;
    if (left < 0) return false;
    if (wide.key === 'all') return wide.of.every((member) => implies(narrow, member));
    if (narrow.key === 'any') return narrow.of.every((member) => implies(member, wide));
    if (wide.key === 'any' && wide.of.some((member) => implies(narrow, member))) return true;
    if (narrow.key === 'all') return narrow.of.some((member) => implies(member, wide));
    if (narrow.key === 'not' && wide.key === 'not') return implies(wide.of, narrow.of);
    return single(narrow, wide);
  };
  return { implies };
}

/** Whether no note can fit a condition, because what it asks for contradicts itself. */
export function isImpossible(condition: Condition): boolean {
  if (condition.key === 'any') return condition.of.every(isImpossible);
  const members = membersOf(condition);
  const asked = new Map<string, boolean>();
  const reached = new Map<string, { from: number; end: number }>();
  return members.some((member) => {
    if (member.key === 'any') return isImpossible(member);
    if ('is' in member) {
      const before = asked.get(member.key);
      asked.set(member.key, member.is);
      return before !== undefined && before !== member.is;
    }
    const interval = intervalOf(member);
    if (!interval) return false;
    const { from, end } = reached.get(interval.measure) ?? interval;
    const both = { ...interval, from: Math.max(from, interval.from), end: Math.min(end, interval.end) };
    reached.set(interval.measure, both);
    return isEmpty(both);
  });
}

/** What must hold all together, `all` inside `all` taken apart. */
function membersOf(condition: Condition): readonly Condition[] {
  return condition.key === 'all' ? condition.of.flatMap(membersOf) : [condition];
}
