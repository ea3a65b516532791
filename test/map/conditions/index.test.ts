import { describe, expect, it } from 'vitest';
import {
  boundsIn,
  type Condition,
  conditionSchemas,
  durationsIn,
  formatCondition,
} from '../../../src/map/conditions/index.js';
import { combinedKinds, measuredKinds } from '../../../src/map/conditions/list.js';
import { lineOfNotes, msTicks, noteAt } from '../../support/line.js';

describe('the kinds of condition', () => {
  it('stand in the order of the schemas, none of them twice', () => {
    const { condition, ...fragments } = conditionSchemas() as Record<string, { properties?: object }>;
    const keys = Object.keys(condition?.properties ?? {});
    expect(new Set(keys).size).toBe(measuredKinds.length + combinedKinds.length);
    expect(Object.keys(fragments)).toEqual(keys.map((key) => `when-${key}`));
    for (const fragment of Object.values(fragments))
      expect(fragment).toHaveProperty('description', expect.stringMatching(/\.$/u));
  });

  it('tell the durations and the bounds inside combinations, each with the key of its condition', () => {
    const ms = (value: number) => ({ unit: 'ms', ms: value }) as const;
    const condition: Condition = {
      key: 'any',
      of: [
        { key: 'not', of: { key: 'held', range: { from: ms(100), below: ms(200) } } },
        { key: 'all', of: [{ key: 'run', notes: 3, pace: { below: ms(150) } }] },
        { key: 'rest-after', range: { from: ms(900) } },
        { key: 'leap', range: { from: 3 } },
      ],
    };
    expect(durationsIn(condition)).toEqual([
      ['held', ms(100)],
      ['held', ms(200)],
      ['run', ms(150)],
      ['rest-after', ms(900)],
    ]);
    expect(boundsIn(condition)).toEqual([
      { measure: 'held', at: ms(100) },
      { measure: 'held', at: ms(200) },
    ]);
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

  it('say of several that would do only those that held, where the line is known', () => {
    const line = lineOfNotes([{ tick: 0, end: 182, pitch: 60 }], [], msTicks);
    const note = noteAt(line, 0);
    const any: Condition = {
      key: 'any',
      of: [
        { key: 'after', articulations: ['long'] },
        { key: 'pitch', range: { to: 60 } },
        { key: 'velocity', range: { from: 90 } },
      ],
    };
    expect(formatCondition(any, note, { line })).toBe('pitch 60 (up to 60)');
    expect(formatCondition(any, note, { line, previous: 'long' })).toBe('after long and pitch 60 (up to 60)');
    expect(formatCondition(any, note)).toBe(
      'any of: after long or pitch 60 (up to 60) or velocity 80 (from 90)',
    );
  });
});
