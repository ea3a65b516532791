import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findings } from '../../../src/score/diagnostic.js';
import type { Jump, ScoreMeasure } from '../../../src/score/model.js';
import { withCodaJumps } from '../../../src/score/play/coda.js';
import { playOrder } from '../../../src/score/play/order.js';
import { draws } from '../../support/draws.js';

/**
 * Bars as a row of words: "|:" before a bar opens, ":|" behind one closes, ":|3" three times, "[1]" an ending, and
 * S C segno and coda, DC DS TC FINE jumps.
 */
function bars(row: string): readonly ScoreMeasure[] {
  return row.split(' / ').map((text, index): ScoreMeasure => {
    const words = text.split(' ');
    const ending = words.find((word) => word.startsWith('['));
    const close = words.find((word) => word.startsWith(':|'));
    return {
      number: String(index + 1),
      length: 4,
      metre: { beats: 4, beatType: 4 },
      repeatFrom: words.includes('|:'),
      repeatTo: close ? { times: close.length > 2 ? Number(close.slice(2)) : null, afterJump: false } : null,
      ending: ending ? ending.slice(1, -1).split(',').map(Number) : null,
      jumps: words.flatMap(jump),
    };
  });
}

function jump(word: string): readonly Jump[] {
  const signs: Readonly<Record<string, Jump>> = {
    S: { kind: 'segno', name: '' },
    C: { kind: 'coda', name: '' },
    DC: { kind: 'dacapo', offset: 0 },
    DS: { kind: 'dalsegno', name: '', offset: 0 },
    TC: { kind: 'tocoda', name: '', offset: 0 },
    FINE: { kind: 'fine', offset: 0 },
  };
  const sign = signs[word];
  return sign ? [sign] : [];
}

function order(row: string): string {
  return playOrder(withCodaJumps(bars(row)), findings('a'))
    .map(({ measure }) => measure + 1)
    .join(' ');
}

describe('the order of bars (common practice; worked out by hand)', () => {
  it.each([
    ['a / b / c', '1 2 3'],
    ['a / b :| / c', '1 2 1 2 3'],
    ['a / |: b / c :| / d', '1 2 3 2 3 4'],
    ['a / |: b :|3 / c', '1 2 2 2 3'],
    ['|: a :| / |: b :|', '1 1 2 2'],
    ['a :| / b :|', '1 1 2 2'],
    ['|: a / b [1] :| / c [2] / d', '1 2 1 3 4'],
    ['|: a / b [1,2] :| / c [3] / d', '1 2 1 2 1 3 4'],
    ['|: a / b [1] :| / c [2] :| / d [3]', '1 2 1 3 1 4'],
    ['|: a / b [1] :| / c [2] / |: d / e [1] :| / f [2]', '1 2 1 3 4 5 4 6'],
    ['|: a / b [1] :| / c', '1 2 1 3'],
    ['a / |: b', '1 2'],
    ['a / b / c DC', '1 2 3 1 2 3'],
    ['a / b FINE / c DC', '1 2 3 1 2'],
    ['a / S b / c FINE / d DS', '1 2 3 4 2 3'],
    ['a / S b TC / c / d DS / C e', '1 2 3 4 2 5'],
    ['a / b TC / c DC / C d', '1 2 3 1 2 4'],
    ['a / b C / c DC / C d', '1 2 3 1 2 4'],
    ['|: a / b [1] :| / c [2] FINE / |: d :| DC', '1 2 1 3 4 4 1 3'],
    ['a :| / b DC', '1 1 2 1 2'],
    ['a / b DS', '1 2'],
  ])('%s', (row, expected) => {
    expect(order(row)).toBe(expected);
  });

  it('is the same for nested repeats as counted by hand (the test suite, 45c: 46 bars)', () => {
    expect(order('a / |: b / c :|5 / d / e / f / g :|3 / h').split(' ')).toHaveLength(46);
  });

  it('tells of a jump that leads nowhere, and plays on', () => {
    const found = findings('a');
    playOrder(bars('a / b DS'), found);
    expect(found.all).toMatchObject([{ code: 'score-jump', severity: 'warning' }]);
  });

  it('refuses repeats of repeats that would not end in a lifetime', () => {
    const found = findings('a');
    const row = Array.from(
      { length: 12 },
      (_, index) => `${index < 6 ? '|: ' : ''}x${index >= 6 ? ' :|900' : ''}`,
    ).join(' / ');
    playOrder(bars(row), found);
    expect(found.all).toMatchObject([{ code: 'score-jump', severity: 'error' }]);
  });

  it('always ends, and plays each bar outside endings and jumps at least once', () => {
    const word = fc.constantFrom(
      'x',
      '|: x',
      'x :|',
      '|: x :|',
      'x [1] :|',
      'x [2]',
      'x :|3',
      'x [1]',
      'x [1,2] :|',
    );
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 12 }), (words) => {
        const found = findings('a');
        const all = bars(words.join(' / '));
        const steps = playOrder(all, found);
        expect(found.all).toEqual([]);
        const played = new Set(steps.map(({ measure }) => measure));
        all.forEach(({ ending }, index) => {
          if (!ending) expect(played).toContain(index);
        });
      }),
      { numRuns: draws(500) },
    );
  });
});
