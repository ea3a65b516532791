import { refersTo } from '../../yaml/index.js';
import { listOf } from '../source/index.js';
import type { AnyCondition, CombinedKind } from './kind.js';

export interface AnyOf<C> {
  readonly key: 'any';
  readonly of: readonly C[];
}

/** `any`: at least one of the conditions holds. What is said names only those that do, where that can be told. */
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
    return (note, previous) => members.some((fits) => fits(note, previous));
  },
  format: ({ of }, note, every) => {
    const held = of.filter((member) => every.holds(member, note) === true);
    if (held.length > 0) return held.map((member) => every.format(member, note)).join(' and ');
    return `any of: ${of.map((member) => every.format(member, note)).join(' or ')}`;
  },
  parts: ({ of }) => ({ holds: 'some', of }),
};
