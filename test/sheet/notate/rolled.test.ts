import { describe, expect, it } from 'vitest';
import { notateLine, type Played } from './scores.js';
import { barsOf, named } from './written.js';

/** Notes so many ms apart at 120 quarters a minute, held up to one release. */
const spread = (pitches: readonly number[], ms: number, until: number): readonly Played[] =>
  pitches.map((pitch, index) => [(index * ms) / 500, until - (index * ms) / 500, pitch]);

// Common practice, no source.
describe('rolled chords', () => {
  it('wider than the chord window are one chord with the sign for it', () => {
    const { mei } = notateLine(spread([48, 55, 60, 64], 30, 4));
    expect(barsOf(mei)).toEqual(['[c3 g3 c4 e4]:1']);
    expect(named(mei, 'arpeg').map(({ attribs }) => [attribs.plist, attribs.order])).toEqual([
      ['#n0 #n1 #n2 #n3', 'up'],
    ]);
  });

  it('from the top downwards', () => {
    const { mei } = notateLine(spread([64, 60, 55], 45, 4));
    expect(named(mei, 'arpeg').map(({ attribs }) => attribs.order)).toEqual(['down']);
  });

  it('within the chord window have no sign', () => {
    const { mei } = notateLine(spread([48, 55, 60, 64], 10, 4));
    expect(barsOf(mei)).toEqual(['[c3 g3 c4 e4]:1']);
    expect(named(mei, 'arpeg')).toEqual([]);
  });

  it.each([
    ['a run, whose notes are let go', spread([48, 55, 60, 64], 30, 0.2)],
    ['notes to and fro', spread([48, 60, 55, 64], 30, 4)],
    ['notes further apart', spread([48, 55, 60, 64], 90, 4)],
  ])('not %s', (_, notes) => {
    const { mei } = notateLine(notes);
    expect(named(mei, 'arpeg')).toEqual([]);
  });
});
