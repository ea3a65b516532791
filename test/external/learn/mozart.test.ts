import { describe, expect, it } from 'vitest';
import { type LearnNotes, learn } from '../../../src/learn/index.js';
import { columnsOf, decideRules, type Ladder } from '../../../src/learn/ladder.js';
import { movements, mozartNotes } from './mozart.js';

/**
 * Where the data lies: the folders `match` and `scores` of the Batik-plays-Mozart corpus (Hu and Widmer 2023,
 * arXiv:2309.02399), which is open, but not ours to pass on.
 */
const folder = process.env.KEYSLIP_MOZART;
if (folder === undefined)
  console.warn('learn is not checked against open performances: KEYSLIP_MOZART does not say where they lie');

describe.skipIf(folder === undefined)('learning from one half of 36 movements by Mozart', () => {
  it.each([0, 1])('is not below the best single bound on the other half (%i)', (half) => {
    const names = movements(folder ?? '');
    const train = mozartNotes(
      folder ?? '',
      names.filter((_, index) => index % 2 === half),
    );
    const test = mozartNotes(
      folder ?? '',
      names.filter((_, index) => index % 2 !== half),
    );
    const { ladder, singleBound } = learn(train, { weigh: 'articulations', mostRules: 4 });
    const own = balanced(test, ladder);
    const single = balanced(test, singleBound);
    console.info(
      `half ${half}: ladder ${own.toFixed(3)}, best single bound ${single.toFixed(3)}, ${ladder.length} rules`,
    );
    expect(ladder.length).toBeLessThanOrEqual(4);
    expect(own).toBeGreaterThanOrEqual(single - 0.01);
    // Measured on these movements before, with one bound: .815 to .82.
    expect(own).toBeGreaterThanOrEqual(0.82 - 0.01);
  });
});

/** The mean of the shares of short and of slurred notes that are right. */
function balanced(notes: LearnNotes, ladder: Ladder): number {
  const decided = decideRules(ladder, notes.length, columnsOf(notes));
  const shares = [0, 1].map((articulation) => {
    const rows = Array.from(notes.label, (label, row) => (label === articulation ? row : -1)).filter(
      (row) => row >= 0,
    );
    return (
      rows.filter((row) => ladder[decided[row] ?? -1]?.articulation === articulation).length / rows.length
    );
  });
  return shares.reduce((sum, share) => sum + share, 0) / 2;
}
