import { expect, it } from 'vitest';
import { learn } from '../../src/learn/index.js';
import { inventNotes, random } from './invented.js';

/** What is learned from notes that are short below a share of their interval. */
function learnBelow(share: number) {
  const notes = inventNotes(1500, random(9));
  const label = Int32Array.from(notes.heldShare, (held) => (held < share ? 0 : 1));
  const { ladder, rules } = learn({ ...notes, label }, { steadiness: false });
  const [test] = ladder[0]?.tests ?? [];
  const [found] = rules[0]?.unrounded ?? [];
  return {
    rules: ladder.length,
    key: test?.feature.key,
    text: (test?.below ?? test?.from)?.text,
    unrounded: found?.below ?? found?.from,
  };
}

it('keeps a bound that no human writes only where a round one would get notes wrong', () => {
  expect(learnBelow(47.3)).toMatchObject({ rules: 2, key: 'held-share', text: '47%' });
  expect(learnBelow(49.9)).toMatchObject({ rules: 2, key: 'held-share', text: '50%' });
});

it('tells the bound that the notes would set, beside the round one', () => {
  expect(learnBelow(47.3).unrounded).toBeCloseTo(47.3, 0);
});
