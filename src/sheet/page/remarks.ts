import { formatBars, formatBarsUpTo, lastWithin } from '../../midi/index.js';
import type { NotatedBar } from '../notate/index.js';
import type { Sheet, SheetRemark } from '../types.js';
import { alikeTogether } from './alike.js';
import { plain } from './markup.js';

/** So many places are named of remarks that are told together. */
const named = 6;

/**
 * What is to be told of the music, as a list that leads to the bars; the numbers are those beside the notes. Many of a
 * kind are one line that opens.
 */
export function remarksMarkup(sheet: Pick<Sheet, 'remarks' | 'parts'>, bars: readonly NotatedBar[]): string {
  const { remarks, parts } = sheet;
  if (remarks.length === 0) return '';
  const told = (remark: SheetRemark) =>
    `${remark.sign} ${whereabouts(remark, parts, bars)}${plain(remark.text)}${remark.hint === undefined ? '' : ` <span class="hint">${plain(remark.hint)}</span>`}`;
  const items = alikeTogether(sheet).map((group) => {
    const [first] = group;
    if (!first) return '';
    if (group.length === 1) return `<li class="${first.kind}">${told(first)}</li>`;
    const each = group.map((remark) => `<li>${told(remark)}</li>`).join('');
    return `<li class="${first.kind}"><details><summary>${summary(group)}: ${plain(first.text)}</summary><ul>${each}</ul></details></li>`;
  });
  return `<section aria-labelledby="told"><h2 id="told">Warnings and observations</h2><ul class="remarks">${items.join('')}</ul></section>`;
}

/** "△58 and 30 more like it, bars 3–5, 10 and 4 more places". */
function summary(group: readonly SheetRemark[]): string {
  const places = new Map<string, { readonly from: number; readonly to: number }>();
  for (const { bar, toBar } of group)
    if (bar !== undefined) places.set(`${bar} ${toBar}`, { from: bar, to: toBar ?? bar });
  const where = places.size === 0 ? '' : `, ${formatBarsUpTo(named, [...places.values()])}`;
  return `${group[0]?.sign} and ${group.length - 1} more like it${where}`;
}

function whereabouts(
  { bar, toBar, part }: SheetRemark,
  parts: Sheet['parts'],
  bars: readonly NotatedBar[],
): string {
  const name = part === undefined ? '' : (parts[part]?.name ?? '');
  const where =
    bar === undefined
      ? ''
      : `<a href="#bar-${drawnAs(bar, bars)}">${formatBars([{ from: bar, to: toBar ?? bar }])}</a>`;
  const said = [where, plain(name)].filter((text) => text !== '').join(', ');
  return said === '' ? '' : `${said}: `;
}

/** The first of the bars with which a bar is drawn. */
function drawnAs(bar: number, bars: readonly NotatedBar[]): number {
  const at = lastWithin(bars.length, (index) => bars[index]?.bar ?? 0, bar);
  return bars[Math.max(0, at)]?.bar ?? bar;
}
