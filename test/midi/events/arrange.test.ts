import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EventBuilder, merged, statusOf, tickOf } from '../../../src/midi/events/index.js';

function controllers(ticks: readonly number[], value: number) {
  const builder = new EventBuilder();
  for (const tick of ticks) builder.message(tick, 0xb0, 1, value);
  return builder.events();
}

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
