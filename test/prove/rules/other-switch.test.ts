import { describe, expect, it } from 'vitest';
import { cc, kindsOf, library, note, program, proofOf, tap } from '../events.js';

const map = library([
  'one: {switch: [{note: 0}, {note: 10, aspect: mute}, {program: 5, bank: [1, 2]}]}',
  'two: {switch: [{note: 1}, {note: 11, aspect: mute}, {program: 6}]}',
]);
const input = note(500, 900, 60);
const bank = [cc(480, 0, 1), cc(480, 32, 2), program(480, 5)];
const kinds = (switches: ReturnType<typeof tap>) =>
  kindsOf({ map, meant: [[500, 60, 'one']], input, output: [...switches, ...input] });

describe('other-switch', () => {
  it('is not told for what the note asks for, in the order of the map', () => {
    expect(kinds([...tap(480, 0), ...tap(480, 10), ...bank])).toEqual([]);
  });

  it('is told for another order', () => {
    expect(kinds([...tap(480, 10), ...tap(480, 0), ...bank])).toEqual(['other-switch']);
  });

  it('is told for a switch of another articulation, and for one that is sent twice', () => {
    expect(kinds([...tap(440, 1), ...tap(480, 0), ...tap(480, 10), ...bank])).toEqual(['other-switch']);
    expect(kinds([...tap(440, 0), ...tap(480, 0), ...tap(480, 10), ...bank])).toEqual(['other-switch']);
  });

  it('is told for a program without its bank, where the bank is in force from before', () => {
    const two = [...input, ...note(1500, 1900, 62)];
    const output = [...tap(480, 0), ...tap(480, 10), ...bank, program(1480, 5), ...two];
    const meant = [
      [500, 60, 'one'],
      [1500, 62, 'one'],
    ] as const;
    const [violation] = proofOf({ map, meant, input: two, output }).violations;
    expect(violation).toMatchObject({ kind: 'other-switch', tick: 1480 });
    expect(violation?.message).toContain('without its bank');
  });

  it('is told for a switch behind the last note', () => {
    expect(kinds([...tap(480, 0), ...tap(480, 10), ...bank, ...tap(1000, 1, 0, 1000)])).toEqual([
      'moved-event',
      'other-switch',
    ]);
  });

  it('is not told for the switches of a note that is lost', () => {
    const two = [...input, ...note(1000, 1300, 62), ...note(1500, 1900, 64)];
    const meant = [
      [500, 60, 'one'],
      [1000, 62, 'two'],
      [1500, 64, 'one'],
    ] as const;
    const first = [...tap(480, 0), ...tap(480, 10), ...bank];
    const second = [...tap(980, 1), ...tap(980, 11), program(980, 6)];
    const third = [...tap(1480, 0), ...tap(1480, 10), cc(1480, 0, 1), cc(1480, 32, 2), program(1480, 5)];
    const without = [...input, ...note(1500, 1900, 64)];
    expect(kindsOf({ map, meant, input: two, output: [...first, ...second, ...third, ...without] })).toEqual([
      'missing-event',
      'missing-event',
    ]);
  });
});
