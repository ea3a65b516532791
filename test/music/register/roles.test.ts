import { describe, expect, it } from 'vitest';
import { hear } from '../../../src/music/register/roles.js';
import { chord, note } from '../voicing/support.js';

const roles = (notes: Parameters<typeof hear>[0]) => Object.fromEntries(hear(notes).roles);

describe('roles', () => {
  it('are melody, harmony and bass from above', () => {
    expect(roles(chord([40, 60, 64, 76]))).toEqual({ 0: 'bass', 1: 'harmony', 2: 'harmony', 3: 'melody' });
  });

  it('go by most of the time in which a part sounds with others', () => {
    const accompaniment = [note(60, 0, 2000, 0), note(40, 0, 8000, 2)];
    expect(roles([...accompaniment, note(76, 0, 1100, 1), note(50, 1100, 2000, 1)])[1]).toBe('melody');
    expect(roles([...accompaniment, note(76, 0, 900, 1), note(50, 900, 2000, 1)])[1]).toBe('harmony');
  });

  it('have a line alone as melody, chords alone as harmony', () => {
    expect(roles([note(60, 0, 500), note(62, 480, 1000)])).toEqual({ 0: 'melody' });
    expect(roles([note(60), note(64), note(67)])).toEqual({ 0: 'harmony' });
  });
});

describe('what lies under a line', () => {
  const under = (notes: Parameters<typeof hear>[0]) => Array.from(hear(notes).under);
  it('is the nearest part less than an octave beneath, as loud or louder', () => {
    expect(under([note(60, 0, 2000, 0), note(55, 0, 2000, 1), note(57, 0, 2000, 2)])).toEqual([2, -1, -1]);
    expect(under([note(60, 0, 2000, 0, 80), note(55, 0, 2000, 1, 79)])).toEqual([-1, -1]);
    expect(under([note(60, 0, 2000, 0), note(48, 0, 2000, 1)])).toEqual([-1, -1]);
    expect(under([note(60, 0, 2000, 0), note(55, 0, 2000, 0)])).toEqual([-1, -1]);
  });

  it('has to sound for most of the note', () => {
    expect(under([note(60, 0, 2000, 0), note(55, 0, 1200, 1)])[0]).toBe(1);
    expect(under([note(60, 0, 2000, 0), note(55, 0, 900, 1)])[0]).toBe(-1);
  });
});
