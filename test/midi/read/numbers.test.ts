import { describe, expect, it } from 'vitest';
import { behindQuantity, putQuantity, quantity, saysQuantity } from '../../../src/midi/events/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { uint32 } from '../../../src/midi/read/numbers.js';
import { bytes, endOfTrack, midi, printed, quantities } from './bytes.js';

describe('variable-length quantities', () => {
  for (const [value, spelling] of quantities)
    it(`reads ${spelling} as 0x${value.toString(16)}`, () => {
      const spelled = bytes(spelling);
      expect(behindQuantity(spelled, 0, spelled.length)).toBe(spelled.length);
      expect(quantity(spelled, 0, spelled.length)).toBe(value);
      expect(saysQuantity(spelled, 0, spelled.length, value)).toBe(true);
      const written = new Uint8Array(4);
      expect(printed(written.subarray(0, putQuantity(written, 0, value)))).toBe(printed(spelled));
      const { value: song } = readMidi(midi([[...spelled, 0x90, 60, 1, ...endOfTrack]]), 'a.mid');
      expect([...(song?.tracks[0]?.columns.ticks ?? [])]).toEqual([value, value]);
    });

  it('tells one that is cut short from one that is too long', () => {
    expect(behindQuantity(bytes('81 80'), 0, 2)).toBeGreaterThan(2);
    expect(behindQuantity(bytes('FF FF FF'), 0, 3)).toBeGreaterThan(3);
    expect(behindQuantity(bytes('81 80 80 80'), 0, 4)).toBe(-1);
    expect(behindQuantity(bytes('81 80 80 80 00'), 0, 5)).toBe(-1);
    expect(behindQuantity(bytes('05'), 1, 1)).toBeGreaterThan(1);
  });
});

describe('whether bytes are a quantity', () => {
  const says = (spelling: string, value: number) => {
    const spelled = bytes(spelling);
    return saysQuantity(spelled, 0, spelled.length, value);
  };

  it('goes by what they say, not by how long they say it', () => {
    expect(says('05', 5)).toBe(true);
    expect(says('80 80 05', 5)).toBe(true);
    expect(says('05', 6)).toBe(false);
  });

  it('is no of none, of one that goes on, of two, and of more than four bytes', () => {
    expect(says('', 0)).toBe(false);
    expect(says('80', 0)).toBe(false);
    expect(says('00 00', 0)).toBe(false);
    expect(says('80 80 80 80 05', 5)).toBe(false);
  });
});

describe('uint32', () => {
  it('is never negative', () => {
    expect(uint32(bytes('FF FF FF FF'), 0)).toBe(0xffffffff);
  });
});
