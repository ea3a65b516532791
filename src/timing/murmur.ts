/**
 * MurmurHash3, 32 bits for x86, by Austin Appleby (public domain; MurmurHash3.cpp of the SMHasher test suite). Its
 * published verification value there is 0xB0F57EE3.
 *
 * @returns an unsigned 32-bit number
 */
export function murmur3(bytes: Uint8Array, seed: number): number {
  const blocks = bytes.length >>> 2;
  let hash = seed | 0;
  for (let block = 0; block < blocks; block += 1) {
    hash = rotate(hash ^ scramble(word(bytes, block * 4, 4)), 13);
    hash = (Math.imul(hash, 5) + 0xe6546b64) | 0;
  }
  const rest = bytes.length & 3;
  if (rest > 0) hash ^= scramble(word(bytes, blocks * 4, rest));
  return finish(hash ^ bytes.length);
}

function word(bytes: Uint8Array, from: number, length: number): number {
  let value = 0;
  for (let i = 0; i < length; i += 1) value |= (bytes[from + i] ?? 0) << (8 * i);
  return value;
}

function scramble(value: number): number {
  return Math.imul(rotate(Math.imul(value, 0xcc9e2d51), 15), 0x1b873593);
}

function rotate(value: number, by: number): number {
  return (value << by) | (value >>> (32 - by));
}

function finish(value: number): number {
  let hash = value;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}
