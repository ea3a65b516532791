import type { NotatedBar } from '../../notate/index.js';
import type { Sheet } from '../../types.js';
import { at, plain } from '../markup.js';
import { letterWidth, smallText } from './lane.js';

/** The height of a row, and what loudness has the shortest bar. */
const rowHeight = 300;
const softest = -40;
/** Where libraries were measured: so far below the loudest. Unit: dB. */
const range = 40;

/** The balance of a sheet by its bars, and the loudness of the longest of them, the same in all systems. */
export interface BalanceScale {
  readonly byBar: ReadonlyMap<number, Sheet['balance'][number]>;
  /** Unit: dB. */
  readonly loudest: number;
  /** What has the shortest bar. Unit: dB. */
  readonly softest: number;
}

export function scaleOf(balance: Sheet['balance']): BalanceScale {
  const byBar = new Map(balance.map((one) => [one.bar, one]));
  let loudest = Number.NEGATIVE_INFINITY;
  let isMeasured = false;
  for (const { sections } of balance)
    for (const { loudness, referenceLevel } of sections) {
      loudest = Math.max(loudest, loudness);
      isMeasured ||= referenceLevel !== undefined;
    }
  return isMeasured
    ? { byBar, loudest, softest: loudest - range }
    : { byBar, loudest: Math.max(softest + 1, loudest), softest };
}

/**
 * Rows of bars, one for each section that plays in this system: how loud it is in each bar, in dB.
 *
 * @param resting names of sections that are left out, since they have no staff in this system
 */
export function balanceLane(
  { byBar, ...scale }: BalanceScale,
  bars: readonly NotatedBar[],
  drawn: readonly { readonly left: number; readonly right: number }[],
  top: number,
  resting: ReadonlySet<string> = new Set(),
): { readonly markup: string; readonly height: number } {
  const here = bars.flatMap(({ bar }, index) => {
    const found = byBar.get(bar);
    const ends = drawn[index];
    return found && ends ? [{ ...found, ...ends }] : [];
  });
  const found = new Set(here.flatMap(({ sections }) => sections.map(({ name }) => name)));
  const names = [...found].filter((name) => !resting.has(name));
  if (names.length === 0) return { markup: '', height: 0 };
  const rows = names.map((name, row) => {
    const y = top + rowHeight * (row + 1);
    const label = `<text class="name" x="${at((drawn[0]?.left ?? 0) - 180)}" y="${at(y + 150)}" text-anchor="end" font-size="${smallText}">${plain(name)}</text>`;
    return label + here.map((bar) => cell(bar, name, y, scale)).join('');
  });
  const heading = `<text class="name" x="${at((drawn[0]?.left ?? 0) - 180)}" y="${at(top + 150)}" text-anchor="end" font-size="${smallText}">Balance</text>`;
  return {
    markup: `<g class="balance">${heading}${rows.join('')}</g>`,
    height: rowHeight * (names.length + 1) + 100,
  };
}

type DrawnBar = Sheet['balance'][number] & { readonly left: number; readonly right: number };

/** One section in one bar: a bar as long as it is loud, open where the section is covered, and what there is room to say. */
function cell(
  { sections, covered, left, right }: DrawnBar,
  name: string,
  y: number,
  { loudest, softest }: Omit<BalanceScale, 'byBar'>,
): string {
  const one = sections.find((section) => section.name === name);
  if (!one) return '';
  const share = Math.max(0, Math.min(1, (one.loudness - softest) / (loudest - softest)));
  const width = Math.max((right - left - 900) * share, 20);
  const by = covered.find((cover) => cover.name === name)?.by;
  const level = `${one.loudness.toFixed(1).replace('-', '−')} dB`;
  const whole = by === undefined ? level : `${level} ◂ under ${by}`;
  const x = left + 120 + width;
  const hasRoom = (text: string) => x + text.length * letterWidth * 0.85 < right;
  const said =
    [whole, by === undefined ? level : `${level} ◂`, by === undefined ? '' : '◂'].find(hasRoom) ?? '';
  const shape = `<rect class="${by === undefined ? 'loud' : 'loud covered'}" x="${at(left + 60)}" y="${at(y)}" width="${at(width)}" height="170"/>`;
  const text = `<text x="${at(x)}" y="${at(y + 155)}" font-size="${Math.round(smallText * 0.85)}">${plain(said)}</text>`;
  return `<g><title>${plain(`${name}: ${whole}`)}</title>${shape}${text}</g>`;
}
