import { describe, expect, it } from 'vitest';
import { clefOf, percussionLocation } from '../../../src/sheet/notate/clef.js';
import { spell } from '../../../src/sheet/notate/spelling.js';
import { staffOf } from './scores.js';

const clefAt = (label: string, pitches: readonly number[], percussion = false) => {
  const { shape, octaves } = clefOf(
    staffOf(
      pitches.map((pitch, at) => [at, 1, pitch]),
      { label, percussion },
    ),
  );
  return `${shape}${octaves}`;
};

// Ranges and clefs of instruments: common practice, no source.
describe('the clef of a part', () => {
  it.each([
    ['Violins', [55, 96, 80], 'G0'],
    ['Cello', [36, 57, 48], 'F0'],
    ['Piccolo', [96, 98, 84], 'G1'],
    ['Contrabass', [28, 26, 33], 'F-1'],
    ['Violas div.', [72, 79], 'C0'],
    ['Bratschen', [36], 'C0'],
    ['Viole', [60], 'C0'],
    ['Viola da lontano', [60], 'C0'],
    ['Violini', [60], 'G0'],
    ['Alto Flute', [72], 'G0'],
    ['Nothing yet', [], 'G0'],
  ])('%s', (label, pitches, clef) => {
    expect(clefAt(label, pitches)).toBe(clef);
  });
});

it('percussion stands on its staff whatever its keys are', () => {
  // The pitches of a bass drum, a snare drum and a closed hi-hat (General MIDI percussion map, from memory).
  const staff = staffOf(
    [36, 38, 42].map((pitch, at) => [at, 1, pitch]),
    { percussion: true },
  );
  const clef = clefOf(staff);
  expect(clef.shape).toBe('perc');
  const places = staff.notes.map(({ pitch }) => percussionLocation(spell(pitch, 0), clef));
  // As C5, D5 and F5 stand in a treble clef: third space, fourth line, top line.
  expect(places).toEqual([5, 6, 8]);
});
