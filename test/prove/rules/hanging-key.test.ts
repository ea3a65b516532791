import { describe, expect, it } from 'vitest';
import { kindsOf, library, note, off, on, proofOf, tap } from '../events.js';

const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
const music = [...note(500, 510, 60), ...note(520, 900, 62)];
const meant = [
  [500, 60, 'short'],
  [520, 62, 'long'],
] as const;

describe('hanging-key', () => {
  it('is told for a key that is never released', () => {
    const output = [...tap(480, 0), on(511, 1, 100), ...music];
    expect(proofOf({ map, meant, output }).violations).toMatchObject([
      { kind: 'hanging-key', tick: 511, pitch: 1 },
    ]);
  });

  it('is told for a key that is struck again while it is down', () => {
    const again = [on(480, 0, 100), on(490, 0, 100), off(500, 0), off(510, 0), ...tap(511, 1), ...music];
    expect(kindsOf({ map, meant, output: again })).toEqual(['other-switch', 'hanging-key']);
  });

  it('is not told where a key is released on the tick of its next strike, before it', () => {
    const short = [
      [500, 60, 'short'],
      [520, 62, 'short'],
    ] as const;
    const held = [...note(500, 700, 60), ...note(520, 900, 62)];
    const output = [on(490, 0, 100), off(515, 0), on(515, 0, 100), off(545, 0), ...held];
    expect(kindsOf({ map, meant: short, output })).toEqual(['touched-note']);
    const apart = { ...map, chordWindow: { unit: 'ms', ms: 10 } as const };
    expect(kindsOf({ map: apart, meant: short, output })).toEqual([]);
  });
});
