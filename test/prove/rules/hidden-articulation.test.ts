import { describe, expect, it } from 'vitest';
import { cc, kindsOf, library, note, program, proofOf, tap } from '../events.js';

const music = [...note(500, 900, 60), ...note(1000, 1400, 62)];

describe('hidden-articulation', () => {
  it('is told where another needs the same and more, and has it', () => {
    const map = library([
      'joined: {switch: [{note: 0}, {controller: 68, value: 127}]}',
      'plain: {switch: {note: 0}}',
    ]);
    const output = [...tap(480, 0), cc(480, 68, 127), ...music];
    const meant = [
      [500, 60, 'joined'],
      [1000, 62, 'plain'],
    ] as const;
    expect(proofOf({ map, meant, output }).violations).toMatchObject([
      {
        kind: 'hidden-articulation',
        tick: 1000,
        message: expect.stringContaining('sounds as joined, where plain'),
      },
    ]);
    expect(proofOf({ map, meant, output }).parts[0]?.wrongNotes).toBe(1);
    expect(kindsOf({ map, meant, output: [...output.slice(0, 3), cc(980, 68, 0), ...music] })).toEqual([]);
  });

  it('counts a bank as more than none', () => {
    const map = library(['deep: {switch: {program: 5, bank: [1, 2]}}', 'plain: {switch: {program: 5}}']);
    const meant = [
      [500, 60, 'deep'],
      [1000, 62, 'plain'],
    ] as const;
    const output = [cc(480, 0, 1), cc(480, 32, 2), program(480, 5), program(980, 5), ...music];
    expect(kindsOf({ map, meant, output })).toEqual(['hidden-articulation']);
  });

  it('is not told where neither needs all that the other needs', () => {
    const map = library(['dark: {switch: {controller: 20, value: 1}}', 'short: {switch: {note: 0}}']);
    const meant = [
      [500, 60, 'dark'],
      [1000, 62, 'short'],
    ] as const;
    expect(kindsOf({ map, meant, output: [cc(480, 20, 1), ...tap(980, 0), ...music] })).toEqual([]);
  });

  it('is told under a latched key where the meant one has no switch', () => {
    const map = library(['plain: {}', 'short: {switch: {note: 0}}']);
    const meant = [
      [500, 60, 'short'],
      [1000, 62, 'plain'],
    ] as const;
    expect(kindsOf({ map, meant, output: [...tap(480, 0), ...music] })).toEqual(['hidden-articulation']);
  });

  it('is not told on another channel', () => {
    const map = library(['near: {}', 'far: {switch: [{channel: 3}, {note: 0}]}']);
    const meant = [[500, 60, 'near']] as const;
    expect(kindsOf({ map, meant, output: note(500, 900, 60) })).toEqual([]);
  });
});
