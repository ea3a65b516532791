import { describe, expect, it } from 'vitest';
import { kindsOf, library, note, off, proofOf, tap } from '../events.js';

const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
const meant = [[500, 60, 'short']] as const;
const music = note(500, 900, 60);

describe('release-without-key', () => {
  it('is told for an inserted release of a switch key that is not down', () => {
    const output = [...tap(480, 0), ...music, off(700, 1)];
    expect(proofOf({ map, meant, input: music, output }).violations).toMatchObject([
      { kind: 'release-without-key', tick: 700, pitch: 1 },
    ]);
  });

  it('is not told for a stray release that the music has itself, nor where there is no input to tell', () => {
    const stray = [...music, off(700, 1)];
    expect(kindsOf({ map, meant, input: stray, output: [...tap(480, 0), ...stray] })).toEqual([]);
    expect(kindsOf({ map, meant, output: [...tap(480, 0), ...stray] })).toEqual([]);
  });
});
