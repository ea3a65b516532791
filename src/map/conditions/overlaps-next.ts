import type { ConditionKind } from './kind.js';

/** `overlaps-next`: held at or past the next onset, less a tolerance. */
export const overlapsNext: ConditionKind<'overlaps-next'> = {
  key: 'overlaps-next',
  fragment: 'when-overlaps-next',
  bind:
    ({ is }) =>
    (note) =>
      note.overlapsNext === is,
  say: (_, note) => (note.overlapsNext ? 'overlaps the next note' : 'does not overlap the next note'),
};
