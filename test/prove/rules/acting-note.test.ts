import { describe, expect, it } from 'vitest';
import { library, note, proofOf, tap } from '../events.js';

describe('acting-note', () => {
  it('is told for a note of the music on a switch key, and for what it does', () => {
    const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
    const music = [...note(500, 600, 60), ...note(700, 900, 1), ...note(1000, 1400, 62)];
    const meant = [
      [500, 60, 'short'],
      [1000, 62, 'short'],
    ] as const;
    expect(
      proofOf({ map, meant, input: music, output: [...tap(480, 0), ...music] }).violations,
    ).toMatchObject([
      { kind: 'acting-note', tick: 700, pitch: 1 },
      { kind: 'wrong-articulation', tick: 1000 },
    ]);
  });
});
