import { describe, expect, it } from 'vitest';
import { clockWith, lineOf, notateLine } from './scores.js';
import { barsOf } from './written.js';

/** The written lengths of a line, in quarters: values that are tied count as one. */
function lengthsOf(mei: string): readonly number[] {
  const lengths: number[] = [];
  let isTied = false;
  for (const [, value = '4', dot, tie] of barsOf(mei)
    .join(' ')
    .matchAll(/[a-g][a-z]*\d:(\d+)(\.?)(~?)/gu)) {
    const length = (4 / Number(value)) * (dot === '' ? 1 : 1.5);
    if (isTied) lengths.push((lengths.pop() ?? 0) + length);
    else lengths.push(length);
    isTied = tie === '~';
  }
  return lengths;
}

describe('equal notes that follow each other evenly are written alike', () => {
  const held = [0.1, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.7, 0.9];
  it.each([0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4])('every %d quarters', (step) => {
    for (const start of [0, 0.5, 1])
      for (const share of held) {
        const { mei } = notateLine(lineOf(Array(12).fill(step), [64], share, start));
        // The last one, with nothing behind it, ends with the last bar.
        expect([share, new Set(lengthsOf(mei).slice(0, -1)).size]).toEqual([share, 1]);
      }
  });

  it('in 6/8, too, and where their lengths stray by a tenth', () => {
    const strayed = lineOf(Array(12).fill(3), [64], 0.4).map(
      ([onset, length, pitch], index) => [onset, length * (1 + (((index * 7) % 5) - 2) / 40), pitch] as const,
    );
    const { mei } = notateLine(strayed, { clock: clockWith([[0, 6, 8]]) });
    expect(new Set(lengthsOf(mei).slice(0, -1)).size).toBe(1);
  });

  it('but a short one behind a long one is not', () => {
    const line = [0, 2, 4, 6].map((onset) => [onset, onset < 4 ? 1.9 : 0.2, 64] as const);
    expect(lengthsOf(notateLine(line).mei)).toEqual([2, 2, 1, 1]);
  });
});
