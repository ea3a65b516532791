import { intervalOf, liesIn, partsOf } from '../conditions/index.js';
import type { Rule } from '../types.js';
import { type Union, unionOf } from './union.js';

/** What the rules so far take between them, as far as they ask for one thing only. */
export interface Covered {
  /** Whether they take every note that fits a rule. */
  takes(rule: Rule): boolean;
  add(rule: Rule): void;
}

/** Joins ranges of one measure (the two answers to a question are such), and marks. */
export function coverage(): Covered {
  const unions = new Map<string, Union>();
  const marks = new Set<string>();
  let everything = false;
  return {
    takes: ({ marked, when }) => {
      if (everything || (marked && marked.length > 0 && marked.every((mark) => marks.has(mark)))) return true;
      const parts = when && partsOf(when);
      const members = parts?.holds === 'every' ? parts.of : when ? [when] : [];
      return members.some((member) => {
        const interval = intervalOf(member);
        return (
          interval !== undefined &&
          (unions.get(interval.measure) ?? []).some((part) => liesIn(interval, part))
        );
      });
    },
    add: ({ marked, when }) => {
      if (marked) {
        if (!when) for (const mark of marked) marks.add(mark);
        return;
      }
      const interval = when && intervalOf(when);
      if (!interval) {
        everything ||= !when;
        return;
      }
      const union = unionOf(unions.get(interval.measure) ?? [], interval);
      unions.set(interval.measure, union);
      const { measure, whole } = interval;
      everything ||= whole !== undefined && union.some((part) => liesIn({ measure, ...whole }, part));
    },
  };
}
