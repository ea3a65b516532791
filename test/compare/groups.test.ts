import { describe, expect, it } from 'vitest';
import type { ChangedNote, Verdict } from '../../src/compare/changes.js';
import { groupChanges } from '../../src/compare/groups.js';

function note(number: number, bar: number, to: string, more: Partial<Verdict> = {}): ChangedNote {
  const from = { articulation: 'long', rule: 3, reason: `held ${number} ms` };
  return { number, tick: number, bar, beat: 1, pitch: 60, from, to: { ...from, articulation: to, ...more } };
}

const byBar = (notes: readonly ChangedNote[]) =>
  groupChanges(notes, ({ bar }) => bar ?? 0).map(({ first, last, notes: count }) => [
    first.to.articulation,
    first.bar,
    last.bar,
    count,
  ]);

describe('changes of one kind', () => {
  it('stand together in bars that follow each other, and apart over a bar without any', () => {
    expect(
      byBar([note(1, 3, 'short'), note(2, 3, 'short'), note(3, 4, 'short'), note(4, 6, 'short')]),
    ).toEqual([
      ['short', 3, 4, 3],
      ['short', 6, 6, 1],
    ]);
  });

  it('stand together though others lie between them', () => {
    expect(
      byBar([note(1, 3, 'short'), note(2, 3, 'joined'), note(3, 3, 'short'), note(4, 4, 'joined')]),
    ).toEqual([
      ['short', 3, 3, 2],
      ['joined', 3, 4, 2],
    ]);
  });

  it('are another kind where another rule, a mark or steadiness decided', () => {
    const changes = [
      note(1, 1, 'short'),
      note(2, 1, 'short', { rule: 2 }),
      note(3, 1, 'short', { rule: 'marked', mark: 'staccato' }),
      note(4, 1, 'short', { insteadOf: 1 }),
    ];
    expect(byBar(changes)).toHaveLength(4);
  });

  it('are none where nothing changes', () => {
    expect(byBar([])).toEqual([]);
  });
});
