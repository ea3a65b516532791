import type { Rule } from '../types.js';
import { intervalOf, liesIn, type Union, unionOf, wholeOf } from './intervals.js';

/** What the rules so far take between them, as far as they ask for one thing only. */
export interface Covered {
  /** Whether they take every note that fits a rule. */
  takes(rule: Rule): boolean;
  add(rule: Rule): void;
}

/** Joins ranges of one measure, both answers to one question, and marks. */
export function coverage(): Covered {
  const unions = new Map<string, Union>();
  const answers = new Set<string>();
  const marks = new Set<string>();
  let everything = false;
  return {
    takes: ({ marked, when }) => {
      if (everything || (marked && marked.length > 0 && marked.every((mark) => marks.has(mark)))) return true;
      const members = when?.key === 'all' ? when.of : when ? [when] : [];
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
      if (when && 'is' in when) {
        answers.add(`${when.key} ${when.is}`);
        everything ||= answers.has(`${when.key} ${!when.is}`);
      }
      const interval = intervalOf(when);
      if (!interval) {
        everything ||= !when;
        return;
      }
      const union = unionOf(unions.get(interval.measure) ?? [], interval);
      unions.set(interval.measure, union);
      const whole = wholeOf(interval);
      everything ||= whole !== undefined && union.some((part) => liesIn(whole, part));
    },
  };
}
