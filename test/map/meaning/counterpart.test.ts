import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  counterpartOf,
  likenessOf,
  meaningsByName,
  type NamedSound,
} from '../../../src/map/meaning/index.js';

const sound = (name: string, ...means: readonly string[]): NamedSound => ({ name, means });

describe('what stands for a sound in another library', () => {
  // M2-123-UM 1.0, 6.1: the same articulation, else another variation, else the plain sound of its class.
  it('is the same meaning, else another variation, else the plain sound of its class', () => {
    const wanted = sound('a', 'staccatos-and-shorts/spiccato');
    const [same, variation] = [sound('x', 'spiccato'), sound('y', '11/5/1')];
    const [plain, other] = [sound('z', 'staccato'), sound('w', 'tenuto')];
    expect(counterpartOf(wanted, [other, plain, variation, same])).toEqual({ likeness: 'same', sound: 3 });
    expect(counterpartOf(wanted, [other, plain, variation])).toEqual({ likeness: 'variation', sound: 2 });
    expect(counterpartOf(wanted, [other, plain])).toEqual({ likeness: 'plain', sound: 1 });
    expect(counterpartOf(wanted, [other])).toEqual({ likeness: 'lost', sound: null });
    expect(counterpartOf(wanted, [])).toEqual({ likeness: 'lost', sound: null });
  });

  it('is found by what a map says first, before what it says besides', () => {
    const wanted = sound('sustain', 'tenuto', 'legato');
    expect(counterpartOf(wanted, [sound('slur', 'legato'), sound('long', 'tenuto')]).sound).toBe(1);
    expect(counterpartOf(wanted, [sound('slur', 'legato'), sound('short', 'staccato')]).sound).toBe(0);
  });

  it('is of several as near the one of the same name, else the first', () => {
    const offered = [sound('one', 'staccato'), sound('two', 'staccato')];
    expect(counterpartOf(sound('two', 'staccato'), offered).sound).toBe(1);
    expect(counterpartOf(sound('three', 'staccato'), offered).sound).toBe(0);
  });

  it('is what shares its name where a map does not say what it means, but not before what is known', () => {
    expect(counterpartOf(sound('run'), [sound('run'), sound('long', 'tenuto')])).toEqual({
      likeness: 'name',
      sound: 0,
    });
    expect(likenessOf(sound('run', 'legato'), sound('run'))).toBe('name');
    expect(counterpartOf(sound('run', 'legato'), [sound('run'), sound('slur', 'legato')]).sound).toBe(1);
    expect(likenessOf(sound('run'), sound('long', 'tenuto'))).toBe('lost');
    // Both say what they mean, so that the name says nothing.
    expect(likenessOf(sound('short', 'staccato'), sound('short', 'tremolo'))).toBe('lost');
  });

  it('is found by a name that itself is a word of the trade', () => {
    expect(likenessOf(sound('pizzicato'), sound('plucked', 'pizz.'))).toBe('same');
  });

  it('is the sound itself in its own library', () => {
    const means = fc.uniqueArray(fc.constantFrom(...meaningsByName.keys()), { maxLength: 3 });
    const library = fc.uniqueArray(fc.record({ name: fc.stringMatching(/^[a-z]{1,6}$/u), means }), {
      selector: ({ name }) => name,
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(library, (sounds) => {
        for (const [index, one] of sounds.entries()) {
          const { likeness, sound: at } = counterpartOf(one, sounds);
          expect(['same', 'name']).toContain(likeness);
          expect(at).toBe(index);
        }
      }),
    );
  });
});
