import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  EventBuilder,
  longData,
  merged,
  messageAt,
  messageOf,
  statusOf,
  tickOf,
  withMessages,
} from '../../../src/midi/events/index.js';

function controllers(ticks: readonly number[], value: number) {
  const builder = new EventBuilder();
  for (const tick of ticks) builder.message(tick, 0xb0, 1, value);
  return builder.events();
}

describe('withMessages', () => {
  it('changes channels and data bytes of those that are told, and nothing in the events it was given', () => {
    const builder = new EventBuilder();
    builder.message(0, 0x90, 60, 80);
    builder.runningMessage(5, 0x90, 62, 81);
    builder.message(9, 0xc0, 5);
    builder.meta(9, 0x01, [97]);
    const events = builder.events();
    const before = events.bytes.slice();
    const told = [messageOf(0x93, 48, 1), undefined, messageOf(0xc4, 6), undefined];
    const changed = withMessages(events, (event) => told[event]);
    expect([0, 1, 2].map((event) => messageAt(changed, event))).toEqual([
      messageOf(0x93, 48, 1),
      messageOf(0x90, 62, 81),
      messageOf(0xc4, 6),
    ]);
    expect([...longData(changed, 3)]).toEqual([97]);
    expect(events.bytes).toEqual(before);
    expect(statusOf(events, 0)).toBe(0x90);
  });
});

describe('merged', () => {
  it('keeps every event of both, each with its tick and bytes, where it was told to stand', () => {
    const ticks = fc.array(fc.nat(5000), { maxLength: 30 }).map((all) => all.sort((a, b) => a - b));
    fc.assert(
      fc.property(ticks, ticks, (one, other) => {
        const events = controllers(one, 11);
        const others = controllers(other, 22);
        const places = other.map((tick) => {
          const at = one.findIndex((own) => own > tick);
          return at < 0 ? one.length : at;
        });
        const all = merged(events, others, places);
        const told = Array.from({ length: all.length }, (_, event) => ({
          tick: tickOf(all, event),
          status: statusOf(all, event),
          value: all.bytes[(all.data[event] ?? 0) + 1],
        }));
        expect(told.map(({ tick }) => tick)).toEqual([...one, ...other].sort((a, b) => a - b));
        expect(told.every(({ status }) => status === 0xb0)).toBe(true);
        expect(told.filter(({ value }) => value === 11).map(({ tick }) => tick)).toEqual(one);
        expect(told.filter(({ value }) => value === 22).map(({ tick }) => tick)).toEqual(other);
      }),
    );
  });
});
