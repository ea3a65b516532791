import type { ConditionKind } from './kind.js';

/** `overlaps-previous`: the previous note was held at or past this onset, less a tolerance. */
export const overlapsPrevious: ConditionKind<'overlaps-previous'> = {
  key: 'overlaps-previous',
  fragment: 'when-overlaps-previous',
  bind:
    ({ is }) =>
    (note) =>
      note.overlapsPrevious === is,
  say: (_, note) =>
    note.overlapsPrevious ? 'the previous note overlaps it' : 'the previous note does not overlap it',
};
