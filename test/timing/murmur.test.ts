import { describe, expect, it } from 'vitest';
import { murmur3 } from '../../src/timing/murmur.js';

const text = (value: string) => new TextEncoder().encode(value);

describe('murmur3', () => {
  // SMHasher's verification test (KeysetTest.cpp, VerificationTest) with the value that main.cpp lists for
  // MurmurHash3_x86_32 (MIT and public domain); from memory: keys 0, 0 1, 0 1 2 … of 0 to 255 bytes, seeds 256 to 1, then all hashes hashed
  it('has the published verification value', () => {
    const hashes = new Uint8Array(256 * 4);
    const view = new DataView(hashes.buffer);
    const key = Uint8Array.from({ length: 256 }, (_, index) => index);
    for (let length = 0; length < 256; length += 1) {
      view.setUint32(length * 4, murmur3(key.subarray(0, length), 256 - length), true);
    }
    expect(murmur3(hashes, 0)).toBe(0xb0f57ee3);
  });

  // vectors in common circulation, from memory
  it('has the known values of short keys', () => {
    expect(murmur3(text(''), 0)).toBe(0);
    expect(murmur3(text(''), 1)).toBe(0x514e28b7);
    expect(murmur3(text(''), 0xffffffff)).toBe(0x81f16f39);
    expect(murmur3(text('test'), 0)).toBe(0xba6bd213);
    expect(murmur3(text('aaaa'), 0x9747b28c)).toBe(0x5a97808a);
    expect(murmur3(text('Hello, world!'), 0x9747b28c)).toBe(0x24884cba);
    expect(murmur3(text('The quick brown fox jumps over the lazy dog'), 0x9747b28c)).toBe(0x2fa826cd);
  });
});
