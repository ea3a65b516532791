import { describe, expect, it } from 'vitest';
import { nearest } from '../../src/diagnostics/nearest.js';

describe('the nearest name', () => {
  const names = ['library', 'instrument', 'range', 'rules', 'pizz.', 'staccato', 'staccatissimo', 'Horns'];
  it('is found through slips of the finger', () => {
    expect(nearest('libary', names)).toBe('library');
    expect(nearest('isntrument', names)).toBe('instrument');
    expect(nearest('ragne', names)).toBe('range');
    expect(nearest('stacatto', names)).toBe('staccato');
    expect(nearest('HORNS', names)).toBe('Horns');
  });
  it('is found by its beginning', () => {
    expect(nearest('pizzicato', names)).toBe('pizz.');
    expect(nearest('instr', names)).toBe('instrument');
  });
  it('is none where nothing is near', () => {
    for (const name of ['', 'xylophone', 'q', 'x'.repeat(5000)]) expect(nearest(name, names)).toBeUndefined();
    expect(nearest('range', [])).toBeUndefined();
  });
});
