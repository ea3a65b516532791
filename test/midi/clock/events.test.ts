import { describe, expect, it } from 'vitest';
import { signatureAt, tempoAt } from '../../../src/midi/clock/events.js';
import { EventBuilder, type Events } from '../../../src/midi/events/index.js';

/** One meta event. */
function meta(type: number, data: readonly number[]): Events {
  const builder = new EventBuilder();
  builder.meta(0, type, data);
  return builder.events();
}

describe('the tempo that an event sets', () => {
  const tempo = (type: number, ...data: number[]) => tempoAt(meta(type, data), 0);

  it('is microseconds to the quarter note', () => {
    expect(tempo(0x51, 0, 0, 1)).toBe(1);
    expect(tempo(0x51, 0xff, 0xff, 0xff)).toBe(0xffffff);
    expect(tempo(0x51, 0x07, 0xa1, 0x20, 5)).toBe(500_000);
  });

  it('is none of 0, of too few bytes, or of another event', () => {
    expect(tempo(0x51, 0, 0, 0)).toBeUndefined();
    expect(tempo(0x51, 0x07, 0xa1)).toBeUndefined();
    expect(tempo(0x52, 0x07, 0xa1, 0x20)).toBeUndefined();
    const exclusive = new EventBuilder();
    exclusive.exclusive(0, 0xf0, [0x51, 0x07, 0xa1, 0x20]);
    expect(tempoAt(exclusive.events(), 0)).toBeUndefined();
  });
});

describe('the time signature that an event sets', () => {
  const signature = (type: number, ...data: number[]) => signatureAt(meta(type, data), 0);

  it('has its lower number as it is written', () => {
    expect(signature(0x58, 6, 3)).toEqual({ numerator: 6, denominator: 8 });
    expect(signature(0x58, 2, 0, 1, 2, 3)).toEqual({ numerator: 2, denominator: 1 });
    expect(signature(0x58, 1, 10)).toEqual({ numerator: 1, denominator: 1024 });
  });

  it('is none that means nothing', () => {
    for (const data of [[0, 2], [4, 11], [4, 255], [4], []]) expect(signature(0x58, ...data)).toBeUndefined();
    expect(signature(0x59, 6, 3)).toBeUndefined();
  });
});
