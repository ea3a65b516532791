import { refersTo } from '../../yaml/index.js';
import type { AnyCondition, CombinedKind } from './kind.js';

export interface Not<C> {
  readonly key: 'not';
  readonly of: C;
}

/** `not`: the condition does not hold. */
export const not: CombinedKind<Not<AnyCondition>> = {
  key: 'not',
  schema: {
    ...refersTo('condition'),
    description: 'This condition does not hold.',
    examples: [{ 'repeats-previous': true }],
  },
  read: (source, tree, every) => ({ key: 'not', of: every.read(source, tree) }),
  bind: ({ of }, line, every) => {
    const fits = every.bind(of, line);
    return (note, previous) => !fits(note, previous);
  },
  format: ({ of }, note, every) => `not: ${every.format(of, note)}`,
  parts: ({ of }) => ({ holds: 'none', of: [of] }),
};
