import { describe, expect, it } from 'vitest';
import { kindsOf, library, note, proofOf, tap } from '../events.js';

const map = library([
  'short: {switch: {note: 0}}',
  'long: {switch: {note: 1}}',
  'bright: {switch: {controller: 20, value: 9}}',
]);

describe('wrong-articulation', () => {
  it('names what sounds, most particular first, and what is meant', () => {
    const output = [...tap(480, 0), ...note(500, 900, 60)];
    expect(proofOf({ map, meant: [[500, 60, 'long']], output }).violations).toMatchObject([
      { kind: 'other-switch' },
      { message: 'the note C4 (60) sounds as short, where long is meant' },
    ]);
  });

  it('spells notes as the map does', () => {
    const spelled = { ...map, middleC: 3 as const };
    const [, violation] = proofOf({
      map: spelled,
      meant: [[500, 60, 'long']],
      output: [...tap(480, 0), ...note(500, 900, 60)],
    }).violations;
    expect(violation?.message).toContain('the note C3 (60)');
  });

  it('is told where the map does not have the articulation', () => {
    expect(
      kindsOf({ map, meant: [[500, 60, 'absent']], output: [...tap(480, 0), ...note(500, 900, 60)] }),
    ).toEqual(['wrong-articulation']);
  });
});
