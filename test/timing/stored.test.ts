import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rollOrders } from '../../src/timing/roll.js';
import { formatStored, parseStored, type StoredOptions } from '../../src/timing/stored.js';
import { draws } from '../support/draws.js';

const ms = fc.integer({ min: 0, max: 1_000_000 }).map((thousandths) => thousandths / 1000);
const timing = fc
  .record({
    compensate: fc.boolean(),
    joins: fc.boolean(),
    pull: fc.option(fc.oneof(fc.integer({ min: 0, max: 100_000 }).map((n) => n / 1000 / 100)), {
      nil: undefined,
    }),
    grids: fc.option(
      fc.array(
        fc.record({
          numerator: fc.integer({ min: 1, max: 999 }),
          denominator: fc.integer({ min: 1, max: 999 }),
        }),
        {
          minLength: 1,
          maxLength: 8,
        },
      ),
      { nil: undefined },
    ),
    roll: fc.option(fc.record({ sdMs: ms, order: fc.constantFrom(...rollOrders) }), { nil: undefined }),
    loosenMs: fc.option(ms, { nil: undefined }),
    seed: fc.integer({ min: 0, max: 999_999_999 }),
  })
  .map((options) => Object.fromEntries(Object.entries(options).filter(([, value]) => value !== undefined)));

describe('options as a text in a file', () => {
  it('are spelled as on the command line', () => {
    const roll = { sdMs: 18, order: 'low-high' as const };
    const grids = [{ numerator: 1, denominator: 16 }];
    const all = { compensate: true, joins: true, pull: 0.6, grids, roll, loosenMs: 8.5, seed: 7 };
    expect(formatStored({ channel: 4, preroll: 1, timing: all })).toBe(
      'keyslip/1 --channel 4 --preroll 1 --compensate --joins --pull 60% --grid 1/16 --roll 18ms --roll-order low-high --loosen 8.5ms --seed 7',
    );
    expect(formatStored({ channel: 1, preroll: 2 })).toBe('keyslip/1 --channel 1 --preroll 2');
  });

  it('are read back as they were, whatever they are', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 16 }),
        fc.integer({ min: 0, max: 64 }),
        timing,
        (channel, preroll, given) => {
          const options = { channel, preroll, timing: given } as unknown as StoredOptions;
          const text = formatStored(options);
          const back = parseStored(text);
          const { roll, loosenMs, compensate, joins, pull, grids } = options.timing ?? {};
          const isChance = roll !== undefined || loosenMs !== undefined;
          const asks = compensate || joins || pull !== undefined || grids !== undefined || isChance;
          // A seed without chance changes nothing, and is not said; nor is timing that asks for nothing.
          const wanted = { ...options.timing, ...(isChance ? {} : { seed: 1 }) };
          expect(back).toEqual(asks ? { channel, preroll, timing: wanted } : { channel, preroll });
        },
      ),
    );
  });

  it.each([
    'keyslip/1',
    'keyslip/2 --channel 1 --compensate',
    'keyslip/1 --compensate',
    'keyslip/1 --channel 17',
    'keyslip/1 --channel 1 --channel 1',
    'keyslip/1 --channel 1 --pull 101%',
    'keyslip/1 --channel 1 --pull 1.5',
    'keyslip/1 --channel 1 --roll 9999ms --roll-order unordered',
    'keyslip/1 --channel 1 --roll 18ms',
    'keyslip/1 --channel 1 --grid 1/0',
    'keyslip/1 --channel 1 --grid 1/16,',
    'keyslip/1 --channel 1 --preroll 65',
    'keyslip/1 --channel 1 --preroll',
    'keyslip/1 --channel 1 --seed 1e9',
    'keyslip/1 --channel 1 --output /etc/passwd',
    'keyslip/1 --channel 1 __proto__ x',
    `keyslip/1 --channel 1${' --compensate'.repeat(1000)}`,
  ])('are not believed where they are not in order (%#)', (text) => {
    expect(parseStored(text)).toBeUndefined();
  });

  it('are never more than the command line could ask for, whatever is in the text', () => {
    const word = fc.oneof(
      fc.constantFrom(
        '--channel',
        '1',
        '--pull',
        '60%',
        '--roll',
        '18ms',
        '--roll-order',
        'unordered',
        '--joins',
      ),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 10 }), (words) => {
        const found = parseStored(['keyslip/1', ...words].join(' '));
        if (!found) return;
        expect(found.channel).toBeGreaterThanOrEqual(1);
        expect(found.channel).toBeLessThanOrEqual(16);
        expect(found.preroll).toBeLessThanOrEqual(64);
        expect(found.timing?.pull ?? 0).toBeLessThanOrEqual(1);
        expect(found.timing?.roll?.sdMs ?? 0).toBeLessThanOrEqual(1000);
      }),
      { numRuns: draws(500) },
    );
  });
});
