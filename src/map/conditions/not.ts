import type { ConditionKind } from './kind.js';

/** `not`: the condition does not hold. */
export const not: ConditionKind<'not'> = {
  key: 'not',
  fragment: 'when-not',
  bind: ({ of }, line, bind) => {
    const fits = bind(of, line);
    return (note) => !fits(note);
  },
  say: ({ of }, note, say) => `not: ${say(of, note)}`,
};
