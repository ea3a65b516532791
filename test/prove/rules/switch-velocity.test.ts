import { describe, expect, it } from 'vitest';
import { library, note, off, on, proofOf } from '../events.js';

describe('switch-velocity', () => {
  it('is told for another velocity than the map’s', () => {
    const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}'], '{velocity: 90}');
    const struck = (velocity: number) => [on(480, 0, velocity), off(490, 0), ...note(500, 900, 60)];
    const proof = (velocity: number) =>
      proofOf({ map, meant: [[500, 60, 'short']], output: struck(velocity) });
    expect(proof(90).violations).toEqual([]);
    expect(proof(91).violations).toMatchObject([{ kind: 'switch-velocity', tick: 480, pitch: 0 }]);
  });
});
