import { describe, expect, it } from 'vitest';
import { mostSamples } from '../../../../src/sound/hear/bank/ogg.js';

/** A page as RFC 3533 has it, with the lacing values of its packets. */
function page(lacing: readonly number[], data: Uint8Array): Uint8Array {
  const head = new Uint8Array(27);
  head.set(new TextEncoder().encode('OggS'));
  head[26] = lacing.length;
  return new Uint8Array(Buffer.concat([head, Uint8Array.from(lacing), data]));
}

/** Vorbis I, 4.2.2: the block sizes stand in one byte, as powers of two. */
function identification(sizes: number): Uint8Array {
  const bytes = new Uint8Array(30);
  bytes[0] = 1;
  bytes.set(new TextEncoder().encode('vorbis'), 1);
  bytes[28] = sizes;
  return bytes;
}

describe('mostSamples', () => {
  it('is half a long block for each packet', () => {
    const first = page([30], identification(0xb8));
    // 255 goes on: three packets, of 3, 258 and 0 bytes
    const second = page([3, 255, 3, 0], new Uint8Array(261));
    expect(mostSamples(new Uint8Array(Buffer.concat([first, second])))).toBe(4 * 1024);
  });

  it('bounds packets of no bytes, which unfold all the same', () => {
    const pages = Array.from({ length: 100 }, () => page(Array(255).fill(0), new Uint8Array(0)));
    const bytes = Buffer.concat([page([30], identification(0xdd)), ...pages]);
    expect(mostSamples(new Uint8Array(bytes))).toBe(25_501 * 4096);
  });

  it('is undefined for anything else', () => {
    expect(mostSamples(new Uint8Array(100))).toBeUndefined();
    expect(mostSamples(page([30], new Uint8Array(30)))).toBeUndefined();
  });
});
