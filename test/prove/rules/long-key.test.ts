import { describe, expect, it } from 'vitest';
import { kindsOf, library, note, off, on, proofOf, tap } from '../events.js';

describe('long-key, latching', () => {
  const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}'], '{tap: 30ms}');
  const meant = [[500, 60, 'short']] as const;
  const heldFor = (ticks: number) =>
    kindsOf({ map, meant, output: [...tap(480, 0, 0, 480 + ticks), ...note(500, 900, 60)] });

  it('is told for a tap that is longer than the map’s, and more than a tick', () => {
    expect([0, 1, 30, 31].map(heldFor)).toEqual([[], [], [], []]);
    expect(heldFor(32)).toEqual(['long-key']);
  });

  it('allows a tick where the tap is shorter than one', () => {
    const tiny = { ...map, switching: { ...map.switching, tap: { unit: 'ms', ms: 0 } as const } };
    expect(kindsOf({ map: tiny, meant, output: [...tap(480, 0, 0, 481), ...note(500, 900, 60)] })).toEqual(
      [],
    );
  });
});

describe('long-key, momentary', () => {
  const map = library(['plain: {}', 'short: {switch: {note: 0}}'], '{notes: momentary}');
  const struck = on(480, 0, 100);
  const short = [[500, 60, 'short']] as const;

  it('is told where a key is let go behind the last note that needs it', () => {
    expect(kindsOf({ map, meant: short, output: [struck, ...note(500, 900, 60), off(900, 0)] })).toEqual([]);
    expect(
      proofOf({ map, meant: short, output: [struck, ...note(500, 900, 60), off(901, 0)] }).violations,
    ).toMatchObject([
      { kind: 'long-key', tick: 901, message: expect.stringContaining('1 tick behind the last note') },
    ]);
  });

  it('stays through a rest between two notes that need it', () => {
    const two = [...note(500, 600, 60), ...note(1000, 1100, 62)];
    const meant = [...short, [1000, 62, 'short']] as const;
    expect(kindsOf({ map, meant, output: [struck, ...two, off(1100, 0)] })).toEqual([]);
  });

  it('is told at the first note that must sound without the key', () => {
    const two = [...note(500, 600, 60), ...note(1000, 1100, 62)];
    const meant = [...short, [1000, 62, 'plain']] as const;
    expect(proofOf({ map, meant, output: [struck, ...two, off(1000, 0)] }).violations).toMatchObject([
      { kind: 'wrong-articulation', tick: 1000 },
      { kind: 'long-key', tick: 1000, message: expect.stringContaining('which is meant as plain') },
    ]);
  });

  it('is told for a key that no note needs', () => {
    const output = [on(100, 0, 100), off(200, 0), struck, ...note(500, 900, 60), off(900, 0)];
    expect(kindsOf({ map, meant: short, output })).toEqual(['other-switch', 'long-key']);
  });
});
