import {
  type Condition,
  type Interval,
  impliesOfKind,
  intervalOf,
  isEmpty,
  liesIn,
  partsOf,
} from '../conditions/index.js';

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
  const intervals = new Map<Condition, Interval | undefined>();
  let left = most;
  const interval = (condition: Condition): Interval | undefined => {
    if (!intervals.has(condition)) intervals.set(condition, intervalOf(condition));
    return intervals.get(condition);
  };
  const single = (narrow: Condition, wide: Condition): boolean => {
    const [inner, outer] = [interval(narrow), interval(wide)];
    return inner && outer ? liesIn(inner, outer) : impliesOfKind(narrow, wide);
  };
  const implies = (narrow: Condition, wide: Condition): boolean => {
    left -= 1;
    if (left < 0) return false;
    const [inner, outer] = [partsOf(narrow), partsOf(wide)];
    if (outer?.holds === 'every') return outer.of.every((member) => implies(narrow, member));
    if (inner?.holds === 'some') return inner.of.every((member) => implies(member, wide));
    if (outer?.holds === 'some' && outer.of.some((member) => implies(narrow, member))) return true;
    if (inner?.holds === 'every') return inner.of.some((member) => implies(member, wide));
    if (inner?.holds === 'none' && outer?.holds === 'none')
      return outer.of.every((member) => inner.of.some((one) => implies(member, one)));
    return single(narrow, wide);
  };
  return { implies };
}

/** Whether no note can fit a condition, because what it asks for contradicts itself. */
export function isImpossible(condition: Condition): boolean {
  const parts = partsOf(condition);
  if (parts?.holds === 'some') return parts.of.every(isImpossible);
  const reached = new Map<string, Pick<Interval, 'from' | 'end'>>();
  return membersOf(condition).some((member) => {
    if (partsOf(member)?.holds === 'some') return isImpossible(member);
    const interval = intervalOf(member);
    if (!interval) return false;
    const { from, end } = reached.get(interval.measure) ?? interval;
    const both = { from: Math.max(from, interval.from), end: Math.min(end, interval.end) };
    reached.set(interval.measure, both);
    return isEmpty(both);
  });
}

/** What must hold all together, `all` inside `all` taken apart. */
function membersOf(condition: Condition): readonly Condition[] {
  const parts = partsOf(condition);
  return parts?.holds === 'every' ? parts.of.flatMap(membersOf) : [condition];
}
