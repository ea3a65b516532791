import { describe, expect, it } from 'vitest';
import { library, note, proofOf, tap } from '../events.js';

const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);

describe('heard-switch', () => {
  it('is told once for a key inside the range that the library plays', () => {
    const low = { ...map, range: { low: 1, high: 100 } };
    const meant = [
      [500, 60, 'long'],
      [1000, 60, 'short'],
      [1500, 60, 'long'],
    ] as const;
    const music = [...note(500, 600, 60), ...note(1000, 1100, 60), ...note(1500, 1600, 60)];
    const output = [...tap(480, 1), ...tap(980, 0), ...tap(1480, 1), ...music];
    expect(proofOf({ map: low, meant, output }).violations).toMatchObject([
      { kind: 'heard-switch', tick: 480, pitch: 1 },
    ]);
  });

  it('is told for an added note that is no switch', () => {
    const music = note(500, 600, 60);
    const output = [...tap(480, 0), ...tap(490, 7), ...music];
    expect(proofOf({ map, meant: [[500, 60, 'short']], input: music, output }).violations).toMatchObject([
      { kind: 'heard-switch', tick: 490, pitch: 7 },
      { kind: 'added-event', tick: 520, pitch: 7 },
    ]);
  });
});
