import { refersTo } from '../../yaml/index.js';
import { listOf } from '../source/index.js';
import type { AnyCondition, CombinedKind } from './kind.js';

export interface AnyOf<C> {
  readonly key: 'any';
  readonly of: readonly C[];
}

/** `any`: at least one of the conditions holds. */
export const any: CombinedKind<AnyOf<AnyCondition>> = {
  key: 'any',
  schema: {
    description: 'At least one of these conditions holds.',
    type: 'array',
    minItems: 1,
    items: refersTo('condition'),
    examples: [[{ 'overlaps-next': true }, { held: { from: '2s' } }]],
  },
  read: (source, tree, every) => ({
    key: 'any',
    of: listOf(tree).map((member) => every.read(source, member)),
  }),
  bind: ({ of }, line, every) => {
    const members = of.map((member) => every.bind(member, line));
    return (note) => members.some((fits) => fits(note));
  },
  format: ({ of }, note, every) => `any of: ${of.map((member) => every.format(member, note)).join(' or ')}`,
  parts: ({ of }) => ({ holds: 'some', of }),
};
