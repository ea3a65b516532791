import { describe, expect, it } from 'vitest';
import { standInOf } from '../../../../src/sound/hear/stand-in/choose.js';
import { plainSound } from '../../../../src/sound/hear/stand-in/plain.js';

const of = (means: readonly string[], family: string) => standInOf({ name: 'x', means }, family);

describe('standInOf', () => {
  it('finds programs of General MIDI 1 (RP-003, table 2: 44 tremolo, 45 pizzicato, 53 oohs, 59 muted trumpet)', () => {
    expect(of(['pizz.'], 'strings')?.program).toBe(45);
    expect(of(['tremolo'], 'strings')?.program).toBe(44);
    expect(of(['con sord.'], 'brass')?.program).toBe(59);
    expect(of(['stopped'], 'voice')?.program).toBe(53);
    expect(of(['con sord.'], 'strings')?.program).toBeUndefined();
  });

  it('takes classes of M2-123 by their last name', () => {
    expect(of(['staccatos-and-shorts/spiccato'], 'strings')).toEqual(of(['spiccato'], 'strings'));
    expect(of(['staccatos-and-shorts/Pizzicato'], 'strings')?.program).toBe(45);
  });

  it('joins several meanings, the first before the others', () => {
    expect(of(['con sord.', 'staccato'], 'brass')).toMatchObject({
      program: 59,
      velocityScale: 0.9,
      length: { share: 0.5 },
    });
  });

  it('takes what the map says before all', () => {
    const standIn = { program: 5, key: 40 };
    expect(standInOf({ name: 'x', means: ['pizz.'], standIn }, 'strings')).toBe(standIn);
  });

  it('has nothing for what it does not know', () => {
    expect(of([], 'strings')).toBeUndefined();
    expect(of(['scoop'], 'brass')).toBeUndefined();
    expect(of(['pizz.'], 'woodwind')).toBeUndefined();
  });
});

describe('plainSound', () => {
  it('takes a program that is named, else the name, else the family', () => {
    expect(plainSound({ name: 'Horns', family: 'brass', program: 61 })).toEqual({
      program: 61,
      isKit: false,
    });
    expect(plainSound({ name: 'Horns', family: 'brass' }).program).toBe(60);
    expect(plainSound({ name: 'Bells I', family: 'keyboard' }).program).toBe(0);
    expect(plainSound({ name: '' }).program).toBe(48);
  });

  it('hears strings as a section, unless one plays', () => {
    expect(plainSound({ name: 'Violins 1' }).program).toBe(48);
    expect(plainSound({ name: 'Violin', players: 1 }).program).toBe(40);
  });

  it('has a kit for percussion, but not for timpani', () => {
    expect(plainSound({ name: 'Snare', family: 'percussion' })).toEqual({ program: 0, isKit: true });
    expect(plainSound({ name: 'Timpani', family: 'percussion' })).toEqual({ program: 47, isKit: false });
    expect(plainSound({ name: 'x', isKit: true })).toEqual({ program: 0, isKit: true });
  });
});
