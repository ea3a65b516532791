import { refersTo } from '../../yaml/index.js';
import { listOf } from '../source/index.js';
import type { AnyCondition, CombinedKind } from './kind.js';

/** With no members it always holds. */
export interface AllOf<C> {
  readonly key: 'all';
  readonly of: readonly C[];
}

/** `all`: every one of the conditions holds. */
export const all: CombinedKind<AllOf<AnyCondition>> = {
  key: 'all',
  schema: {
    description: 'Every one of these conditions holds.',
    type: 'array',
    minItems: 1,
    items: refersTo('condition'),
    examples: [[{ velocity: { from: 100 } }, { not: { chord: { from: 2 } } }]],
  },
  read: (source, tree, every) => ({
    key: 'all',
    of: listOf(tree).map((member) => every.read(source, member)),
  }),
  bind: ({ of }, line, every) => {
    const members = of.map((member) => every.bind(member, line));
    const [only] = members;
    if (only && members.length === 1) return only;
    return (note, previous) => {
      for (let at = 0; at < members.length; at++) if (members[at]?.(note, previous) === false) return false;
      return true;
    };
  },
  format: ({ of }, note, every) => of.map((member) => every.format(member, note)).join(', '),
  parts: ({ of }) => ({ holds: 'every', of }),
};
