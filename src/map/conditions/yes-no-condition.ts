import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredKind } from './kind.js';

export interface YesNoCondition<K extends string> {
  readonly key: K;
  readonly is: boolean;
}

/** What one kind of question has of its own. */
interface Told {
  readonly description: string;
  answer(note: MeasuredNote): boolean;
  /** What is said of a note for which the answer is yes, and for which it is no. */
  readonly said: { readonly yes: string; readonly no: string };
  /** Where steadiness knows how near a note is to the other answer. */
  readonly steadiedBy?: 'overlaps-next' | 'overlaps-previous';
}

/** A kind of condition that asks for yes or no. As a measure, no is 0 and yes is 1. */
export function yesNoCondition<K extends string>(
  key: K,
  { description, answer, said, steadiedBy }: Told,
): MeasuredKind<YesNoCondition<K>> {
  const whole = { from: 0, end: 2 };
  return {
    key,
    schema: { description, type: 'boolean', examples: [true] },
    read: (_, { data }) => ({ key, is: data === true }),
    bind: ({ is }) => (is ? answer : (note) => !answer(note)),
    format: (_, note) => (answer(note) ? said.yes : said.no),
    interval: ({ is }) => ({ measure: key, from: is ? 1 : 0, end: is ? 2 : 1, whole }),
    implies: () => false,
    durations: () => [],
    bounds: () => (steadiedBy ? [{ measure: steadiedBy }] : []),
  };
}
