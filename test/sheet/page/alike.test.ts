import { expect, it } from 'vitest';
import { alikeTogether } from '../../../src/sheet/page/alike.js';
import { remarksMarkup } from '../../../src/sheet/page/remarks.js';
import type { SheetRemark } from '../../../src/sheet/types.js';
import { sheetPart } from './support.js';

const parts = [
  sheetPart({ name: 'Violins' }),
  sheetPart({ name: 'Violins 2' }),
  sheetPart({ name: 'Horns' }),
];
const remark = (index: number, text: string, more: Partial<SheetRemark> = {}): SheetRemark => ({
  kind: 'observation',
  sign: `△${index}`,
  text,
  bar: index,
  ...more,
});
const covered = (index: number, part: string) =>
  remark(
    index,
    `${part} covered by Horns (${index}.5 dB stronger; −${index} dB on the latter would mend it)`,
  );
const bare = (index: number) => remark(index, `bare fifths (A${index}): neither major nor minor`);

it('many of a kind are one line, where the first of them stands; a few stand for themselves; nothing is lost', () => {
  const remarks = [
    covered(1, 'Violins'),
    bare(2),
    covered(3, 'Violins 2'),
    covered(4, 'Violins'),
    bare(5),
    covered(6, 'Violins 2'),
  ];
  const groups = alikeTogether({ remarks, parts });
  expect(groups.map((group) => group.map(({ bar }) => bar))).toEqual([[1, 3, 4, 6], [2], [5]]);
});

it('warnings of one code are of a kind, whatever they say', () => {
  const warnings = ['a', 'b', 'c', 'd'].map((text, index) =>
    remark(index, text, { kind: 'warning', code: 'old-word' }),
  );
  expect(alikeTogether({ remarks: warnings, parts })).toEqual([warnings]);
});

it('observations that differ in words are of different kinds', () => {
  const remarks = ['wide', 'low', 'high', 'bare'].map((word, index) => remark(index, `lies ${word}`));
  expect(alikeTogether({ remarks, parts })).toHaveLength(4);
});

it('the line says how many there are and where, and opens', () => {
  const remarks = [1, 2, 3, 4, 5].map((index) => covered(index, 'Violins'));
  const bars = [{ bar: 1, bars: 8, tick: 0, endTick: 1, system: 0 }];
  const markup = remarksMarkup({ remarks, parts }, bars);
  expect(markup).toContain('<summary>△1 and 4 more like it, bars 1, 2, 3, 4, 5: Violins covered by Horns');
  expect(markup.match(/<li>/gu)).toHaveLength(5);
});
