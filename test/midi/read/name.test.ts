import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { endOfTrack, midi, quantity } from './bytes.js';

const named = (name: ArrayLike<number>) => [0, 0xff, 3, ...quantity(name.length), ...Array.from(name)];
const nameOf = (body: readonly number[]) =>
  readMidi(midi([[...body, ...endOfTrack]]), 'a.mid').value?.tracks[0]?.name;

describe('the name of a track', () => {
  it('is UTF-8', () => {
    expect(nameOf(named(new TextEncoder().encode('Hörner ♭ 𝄞')))).toBe('Hörner ♭ 𝄞');
  });

  it('is Latin-1 where it is not UTF-8: a byte is its code point', () => {
    expect(nameOf(named([0x48, 0xf6, 0x72, 0x6e, 0x80, 0x9f]))).toBe('Hörn\x80\x9f');
  });

  it('is that of the first name event', () => {
    expect(nameOf([...named([0x41]), ...named([0x42])])).toBe('A');
    expect(nameOf([0, 0xff, 1, 1, 0x43, ...named([0x42])])).toBe('B');
  });

  it('is empty where there is none', () => {
    expect(nameOf([])).toBe('');
    expect(nameOf(named([]))).toBe('');
  });

  it('may be long', () => {
    expect(nameOf(named(new Uint8Array(300_000).fill(0x61)))).toBe('a'.repeat(300_000));
  });
});
