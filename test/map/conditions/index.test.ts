import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { conditions, formatCondition } from '../../../src/map/conditions/index.js';
import { lineOfNotes, msTicks, noteAt } from '../../support/line.js';

describe('the kinds of condition', () => {
  const schema: unknown = JSON.parse(readFileSync('schemas/map.schema.json', 'utf8'));
  const fragments = Object.keys((schema as { $defs: Record<string, unknown> }).$defs).filter((name) =>
    name.startsWith('when-'),
  );

  it('each have their fragment in the schema, and the schema has no other', () => {
    expect(
      Object.values(conditions)
        .map(({ fragment }) => fragment)
        .sort(),
    ).toEqual(fragments.sort());
    for (const [key, kind] of Object.entries(conditions)) expect(kind.key).toBe(key);
  });

  it('say what they measured, for explain', () => {
    const line = lineOfNotes(
      [
        { tick: 0, end: 182, pitch: 60, velocity: 90 },
        { tick: 500, end: 600, pitch: 67 },
      ],
      [],
      msTicks,
    );
    const note = noteAt(line, 0);
    const range = { from: { unit: 'ms', ms: 130 }, below: { unit: 'ms', ms: 320 } } as const;
    expect(formatCondition({ key: 'held', range }, note)).toBe('held 182 ms (130ms to below 320ms)');
    expect(formatCondition({ key: 'rest-before', range: { from: range.from } }, note)).toBe(
      'rest before endless (from 130ms)',
    );
    expect(formatCondition({ key: 'velocity', range: { to: 100 } }, note)).toBe('velocity 90 (up to 100)');
    expect(formatCondition({ key: 'not', of: { key: 'overlaps-next', is: true } }, note)).toBe(
      'not: does not overlap the next note',
    );
  });
});
