import { describe, expect, it } from 'vitest';
import { signatureOf, tempoOf } from '../../../src/midi/clock/events.js';
import type { MidiEvent } from '../../../src/midi/song.js';

const held = (metatypeByte: number, data: readonly number[]): MidiEvent => ({
  deltaTime: 0,
  meta: true,
  type: 'unknownMeta',
  metatypeByte,
  data,
});

describe('the tempo that an event sets', () => {
  it('is microseconds to the quarter note', () => {
    expect(tempoOf({ deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 1 })).toBe(1);
    expect(tempoOf(held(0x51, [0x07, 0xa1, 0x20, 5]))).toBe(500_000);
  });

  it('is none of 0, of too few bytes, or of another event', () => {
    expect(tempoOf({ deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 0 })).toBeUndefined();
    expect(tempoOf(held(0x51, [0x07, 0xa1]))).toBeUndefined();
    expect(tempoOf(held(0x52, [0x07, 0xa1, 0x20]))).toBeUndefined();
    expect(tempoOf({ deltaTime: 0, type: 'sysEx', data: [0x07, 0xa1, 0x20] })).toBeUndefined();
  });
});

describe('the time signature that an event sets', () => {
  it('has its lower number as it is written', () => {
    expect(signatureOf(held(0x58, [6, 3]))).toEqual({ numerator: 6, denominator: 8 });
    expect(signatureOf(held(0x58, [2, 0, 1, 2, 3]))).toEqual({ numerator: 2, denominator: 1 });
    expect(signatureOf(held(0x58, [1, 10]))).toEqual({ numerator: 1, denominator: 1024 });
  });

  it('is none that means nothing', () => {
    for (const data of [[0, 2], [4, 11], [4, 255], [4], []])
      expect(signatureOf(held(0x58, data))).toBeUndefined();
    expect(signatureOf(held(0x59, [6, 3]))).toBeUndefined();
  });
});
