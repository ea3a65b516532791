import type { ConditionKind } from './kind.js';

/** `all`: every one of the conditions holds. */
export const all: ConditionKind<'all'> = {
  key: 'all',
  fragment: 'when-all',
  bind: ({ of }, line, bind) => {
    const members = of.map((member) => bind(member, line));
    const [only] = members;
    if (only && members.length === 1) return only;
    return (note) => members.every((fits) => fits(note));
  },
  say: ({ of }, note, say) => of.map((member) => say(member, note)).join(', '),
};
