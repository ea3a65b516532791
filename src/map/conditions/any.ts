import type { ConditionKind } from './kind.js';

/** `any`: at least one of the conditions holds. */
export const any: ConditionKind<'any'> = {
  key: 'any',
  fragment: 'when-any',
  bind: ({ of }, line, bind) => {
    const members = of.map((member) => bind(member, line));
    return (note) => members.some((fits) => fits(note));
  },
  say: ({ of }, note, say) => `any of: ${of.map((member) => say(member, note)).join(' or ')}`,
};
