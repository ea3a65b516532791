import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  combineMeanings,
  type Meaning,
  matchMeaning,
  nearnessOf,
  readMeaning,
} from '../../../src/map/meaning/index.js';

function meaning(...names: string[]): Meaning {
  return combineMeanings(
    names.map((name) => {
      const read = readMeaning(name);
      if (read.kind !== 'known') throw new Error(`${name} has no meaning`);
      return read.meaning;
    }),
  );
}

const match = (wanted: Meaning, ...sounds: Meaning[][]) => matchMeaning(wanted, sounds);

describe('matchMeaning', () => {
  it('takes the same meaning before all others, wherever it stands', () => {
    const sounds = [[meaning('staccato')], [meaning('11/5/1')], [meaning('tenuto'), meaning('spiccato')]];
    expect(match(meaning('spiccato'), ...sounds)).toEqual({ nearness: 'same', sound: 2 });
  });

  it('falls back as M2-123, 6.1 says: another variation, the plain sound of the class', () => {
    const sounds = [[meaning('legato')], [meaning('staccato')], [meaning('11/5/1')]];
    expect(match(meaning('spiccato'), ...sounds)).toEqual({ nearness: 'variation', sound: 2 });
    expect(match(meaning('spiccato'), ...sounds.slice(0, 2))).toEqual({ nearness: 'plain', sound: 1 });
  });

  it('loses what only the plain sound of another class could stand for', () => {
    expect(match(meaning('spiccato'), [meaning('tenuto')])).toEqual({ nearness: 'lost', sound: null });
    expect(match(meaning('spiccato'))).toEqual({ nearness: 'lost', sound: null });
  });

  it('hears one plain sound in the two subclasses that the standard gives it', () => {
    expect(nearnessOf(meaning('10/1'), meaning('10/0'))).toBe('same');
    expect(nearnessOf(meaning('marc.'), meaning('10/1'))).toBe('plain');
  });

  it('keeps mutes by mutes', () => {
    expect(nearnessOf(meaning('con sord.'), meaning('con sord.'))).toBe('same');
    expect(nearnessOf(meaning('con sord.'), meaning('stopped'))).toBe('variation');
    expect(nearnessOf(meaning('con sord.'), meaning('senza sord.'))).toBe('lost');
    expect(nearnessOf(meaning('con sord.', 'tremolo'), meaning('tremolo'))).toBe('lost');
    expect(nearnessOf(meaning('con sord.', 'legato'), meaning('con sord.'))).toBe('plain');
    expect(nearnessOf(meaning('senza sord.'), meaning('tenuto'))).toBe('same');
  });

  it('does not take one end of the string for the other', () => {
    expect(nearnessOf(meaning('sul pont.'), meaning('sul tasto'))).toBe('lost');
    expect(nearnessOf(meaning('sul pont.'), meaning('arco'))).toBe('lost');
    expect(nearnessOf(meaning('sul pont.'), meaning('arco', 'sul pont.'))).toBe('same');
  });

  it('takes another stroke for a variation', () => {
    expect(nearnessOf(meaning('up-bow'), meaning('down-bow'))).toBe('variation');
  });

  const meanings = fc.record(
    {
      articulation: fc.record({
        type: fc.integer({ min: 0x10, max: 0x17 }),
        subclass: fc.integer({ min: 0, max: 3 }),
        variation: fc.integer({ min: 0, max: 1 }),
      }),
      mute: fc.integer({ min: 0, max: 2 }),
    },
    { requiredKeys: [] },
  );

  it('finds every meaning among sounds that have it, and never what comes less near than another', () => {
    fc.assert(
      fc.property(
        meanings,
        fc.array(fc.array(meanings, { maxLength: 2 }), { maxLength: 6 }),
        (wanted, sounds) => {
          const rank = ['same', 'variation', 'plain', 'lost'];
          const found = matchMeaning(wanted, sounds);
          const all = sounds.flat().map((one) => rank.indexOf(nearnessOf(wanted, one)));
          expect(rank.indexOf(found.nearness)).toBe(Math.min(3, ...all));
          expect(found.sound === null).toBe(found.nearness === 'lost');
          expect(matchMeaning(wanted, [...sounds, [wanted]]).nearness).toBe('same');
        },
      ),
    );
  });
});

describe('combineMeanings', () => {
  it('lets the last mark speak on each aspect', () => {
    expect(meaning('pizz.', 'con sord.', 'arco')).toEqual(meaning('con sord.', 'arco'));
    expect(meaning('half-muted', 'con sord.')).toEqual(meaning('con sord.'));
    expect(meaning('half-muted', 'staccato')).toMatchObject({ mute: 13, muteAmount: 0.5 });
  });
});
