import { formatBars, lastWithin } from '../../midi/index.js';
import type { NotatedBar } from '../notate/index.js';
import type { Sheet, SheetRemark } from '../types.js';
import { plain } from './markup.js';

/** What is to be told of the music, as a list that leads to the bars; the numbers are those beside the notes. */
export function remarksMarkup(
  { remarks, parts }: Pick<Sheet, 'remarks' | 'parts'>,
  bars: readonly NotatedBar[],
): string {
  if (remarks.length === 0) return '';
  const items = remarks.map(
    (remark) =>
      `<li class="${remark.kind}">${remark.sign} ${whereabouts(remark, parts, bars)}${plain(remark.text)}${remark.hint === undefined ? '' : ` <span class="hint">${plain(remark.hint)}</span>`}</li>`,
  );
  return `<section aria-labelledby="told"><h2 id="told">Warnings and observations</h2><ul class="remarks">${items.join('')}</ul></section>`;
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
