import { describe, expect, it } from 'vitest';
import { features } from '../../src/learn/features.js';
import { lengthenedNotes } from '../../src/learn/lengthened.js';
import { inventNotes, random } from './invented.js';

const overlapsNext = features.find(({ key }) => key === 'overlaps-next');
const bound = overlapsNext?.bounds[0];
if (!overlapsNext || !bound) throw new Error('no such feature');
const ladder = [
  { tests: [{ feature: overlapsNext, from: bound, below: null }], articulation: 1 },
  { tests: [], articulation: 0 },
];

/** Every third note overlaps the next by what is drawn. */
function overlapping(overlapMs: () => number) {
  const notes = inventNotes(300, random(2), 1);
  const label = Int32Array.from({ length: 300 }, (_, row) => (row % 3 === 0 ? 1 : 0));
  const heldMs = Float64Array.from(
    label,
    (one, row) =>
      (notes.paceMs[row] ?? 0) * 0.7 + (one === 1 ? (notes.paceMs[row] ?? 0) * 0.3 + overlapMs() : 0),
  );
  return { label, notes: { ...notes, heldMs, overlapsNext: label } };
}

describe('lengthenedNotes', () => {
  it('notices notes that all overlap by the same', () => {
    const { notes, label } = overlapping(() => 40);
    const [found] = lengthenedNotes(ladder, notes, label);
    expect(found).toMatchObject({ articulation: 1, even: true });
    expect(found?.overlapMs).toBeCloseTo(40, 6);
  });

  it('tells hands from machines', () => {
    const next = random(3);
    const { notes, label } = overlapping(() => 10 + 80 * next());
    expect(lengthenedNotes(ladder, notes, label)).toMatchObject([{ articulation: 1, even: false }]);
  });

  it('says nothing where others overlap too, or where the ladder does not ask', () => {
    const { notes, label } = overlapping(() => 40);
    const all = { ...notes, overlapsNext: new Int32Array(300).fill(1) };
    expect(lengthenedNotes(ladder, all, label)).toEqual([]);
    expect(lengthenedNotes(ladder.slice(1), notes, label)).toEqual([]);
  });
});
