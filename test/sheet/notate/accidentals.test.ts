import { describe, expect, it } from 'vitest';
import { lineOf, notateLine } from './scores.js';
import { barsOf, named } from './written.js';

const quarters = (pitches: readonly number[]) =>
  lineOf(
    pitches.map(() => 1),
    pitches,
  );

// Common practice, no source.
describe('accidentals', () => {
  it('hold up to the bar line, and are written again behind it', () => {
    const { mei } = notateLine(quarters([66, 66, 65, 66, 66]));
    expect(barsOf(mei)).toEqual(['fs4:4 f4:4 fn4:4 fs4:4', 'fs4:4 r:4 r:2']);
  });

  it('hold for their octave only', () => {
    const { mei } = notateLine(quarters([66, 78, 66, 77]));
    expect(barsOf(mei)).toEqual(['fs4:4 fs5:4 f4:4 fn5:4']);
  });

  it('are not repeated where a tie leads over the bar line, and are behind the tie', () => {
    const { mei } = notateLine(lineOf([3, 2, 1, 2], [60, 66, 66, 60]));
    expect(barsOf(mei)).toEqual(['c4:2. fs4:4~', 'f4:4 fs4:4 c4:2']);
    const second = named(mei, 'note').find(({ attribs }) => attribs['xml:id'] === 'n1-2');
    expect(second?.attribs['accid.ges']).toBe('s');
  });

  it('count against the key signature', () => {
    const { mei } = notateLine(quarters([66, 65, 66, 61]), { keys: [{ tick: 0, fifths: 2 }] });
    expect(barsOf(mei)).toEqual(['f4:4 fn4:4 fs4:4 c4:4']);
    expect(named(mei, 'note').map(({ attribs }) => attribs['accid.ges'])).toEqual([
      's',
      undefined,
      undefined,
      's',
    ]);
  });

  it('of one layer hold for the other', () => {
    const { mei } = notateLine([
      [0, 4, 78],
      [0, 1, 66],
      [1, 1, 66],
      [2, 1, 77],
      [3, 1, 65],
    ]);
    expect(barsOf(mei)).toEqual(['fs5:1 | fs4:4 f4:4 fn5:4 fn4:4']);
  });
});
