import { expect, it } from 'vitest';
import { notate } from '../../../src/sheet/notate/index.js';
import { systemsOf } from '../../../src/sheet/notate/systems.js';
import { lineOf, notateLine, scoreOf, staffOf } from './scores.js';
import { named } from './written.js';

it('as many bars as fit, eight at most, one at least', () => {
  expect(systemsOf([400, 400, 400, 400, 400], 1300).systems).toEqual([0, 0, 0, 1, 1]);
  expect(systemsOf(Array(10).fill(10), 1300).systems).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 1, 1]);
  expect(systemsOf([2000, 2000, 10], 1300).systems).toEqual([0, 1, 2]);
  expect(systemsOf([], 1300).systems).toEqual([]);
});

it('every system begins a page', () => {
  const { mei, bars } = notateLine(lineOf(Array(200).fill(0.25), [60, 62, 64]));
  const last = bars.at(-1)?.system ?? 0;
  expect(last).toBeGreaterThan(1);
  expect(named(mei, 'pb')).toHaveLength(last + 1);
});

it('fewer bars fit where there are more notes, longer texts or longer names', () => {
  const systems = (values: readonly number[], text = '', label = 'Part') => {
    const staff = staffOf(lineOf(values, [60]), { label });
    const words = staff.notes.map(({ id }) => ({ id, text }));
    return (notate(scoreOf([{ ...staff, words }])).bars.at(-1)?.system ?? 0) + 1;
  };
  const quarters = systems(Array(64).fill(1));
  expect(systems(Array(256).fill(0.25))).toBeGreaterThan(quarters);
  expect(systems(Array(64).fill(1), 'molto espressivo')).toBeGreaterThan(quarters);
  expect(systems(Array(64).fill(1), '', 'A very long name of a part that nobody plays')).toBeGreaterThan(
    quarters,
  );
});
