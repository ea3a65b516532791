import type { ConditionKind } from './kind.js';

/** `repeats-previous`: the same pitch as the previous onset's top note. */
export const repeatsPrevious: ConditionKind<'repeats-previous'> = {
  key: 'repeats-previous',
  fragment: 'when-repeats-previous',
  bind:
    ({ is }) =>
    (note) =>
      note.repeatsPrevious === is,
  say: (_, note) =>
    note.repeatsPrevious ? 'repeats the previous pitch' : 'does not repeat the previous pitch',
};
