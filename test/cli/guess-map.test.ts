import { describe, expect, it } from 'vitest';
import { guessMap } from '../../src/cli/guess-map.js';

// What track names are called and how parts are numbered is common practice; there is no source for it.
const nothing: readonly string[] = [];
const piece = [
  'maps/ferrow-violins-1.yaml',
  'maps/ferrow-violins-2.yaml',
  'maps/marrow-horns.yaml',
  'maps/quern-snare.yaml',
  'maps/tallow-bite.yaml',
  'maps/tallow-horns.yaml',
  'maps/tallow-low-brass.yaml',
];

describe('the guess of a map', () => {
  it.each([
    [['Violin 1', 'Violin 2', 'Violins II', '1st Violins', 'Violin 1 (solo)'], 'violin.yaml'],
    [['Horn 3', 'Horns', '4 Horns', 'Horns a4', 'Corni', 'Horn in F 1'], 'horn.yaml'],
    [['Double Basses', 'Contrabassi'], 'double-bass.yaml'],
    [['Snare 2', 'Snares'], 'snare.yaml'],
    [['Low Brass'], 'low-brass.yaml'],
    [['', '7', '  ', 'Хор'], 'my-library.yaml'],
  ])('is shared by parts of one kind: %j', (names, map) => {
    expect(names.map((name) => guessMap({ name }, nothing).map)).toEqual(names.map(() => map));
  });

  it('is the map that is there, the one with the number first, with what is as likely beside it', () => {
    const guess = (name: string) => guessMap({ name }, piece);
    expect(guess('Violin 2')).toEqual({ map: 'maps/ferrow-violins-2.yaml', others: [] });
    expect(guess('Violins II')).toEqual({ map: 'maps/ferrow-violins-2.yaml', others: [] });
    expect(guess('Violins')).toEqual({ map: piece[0], others: [piece[1]] });
    expect(guess('Horn 3')).toEqual({ map: 'maps/marrow-horns.yaml', others: ['maps/tallow-horns.yaml'] });
    expect(guess('Snare')).toEqual({ map: 'maps/quern-snare.yaml', others: [] });
    expect(guess('Low Brass')).toEqual({ map: 'maps/tallow-low-brass.yaml', others: [] });
    expect(guess('Oboe')).toEqual({ map: 'oboe.yaml', others: [] });
  });

  it('goes by the program where the name tells nothing, then by the channel of percussion (General MIDI 1)', () => {
    expect(guessMap({ name: '', channel: 4, program: 60 }, nothing).map).toBe('horn.yaml');
    expect(guessMap({ name: '', channel: 10 }, nothing).map).toBe('percussion.yaml');
    expect(guessMap({ name: '', channel: 3 }, nothing).map).toBe('my-library.yaml');
    expect(guessMap({ name: 'Tuba', program: 60 }, nothing).map).toBe('tuba.yaml');
  });
});
