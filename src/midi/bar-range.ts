import { plural } from '../diagnostics/index.js';

/** Bars from 1, both ends included. */
export interface BarRange {
  readonly from: number;
  readonly to: number;
}

/** Bars, in any order and however often, as ranges: those that follow each other are one. */
export function barRangesOf(bars: Iterable<number>): readonly BarRange[] {
  const ranges: BarRange[] = [];
  for (const bar of [...new Set(bars)].sort((a, b) => a - b)) {
    const last = ranges.at(-1);
    if (last?.to === bar - 1) ranges[ranges.length - 1] = { from: last.from, to: bar };
    else ranges.push({ from: bar, to: bar });
  }
  return ranges;
}

/** Bars in words: "bar 3", "bars 3–6", "bars 3, 5–7". */
export function formatBars(ranges: readonly BarRange[]): string {
  const [first] = ranges;
  const isOne = ranges.length === 1 && first?.from === first?.to;
  return `bar${isOne ? '' : 's'} ${ranges.map(formatRange).join(', ')}`;
}

/** The same, of which no more than `most` are named: "bars 3, 5 and 2 more places". */
export function formatBarsUpTo(most: number, ranges: readonly BarRange[]): string {
  const more = ranges.length - most;
  if (more <= 0) return formatBars(ranges);
  return `bars ${ranges.slice(0, most).map(formatRange).join(', ')} and ${plural(more, 'more place')}`;
}

function formatRange({ from, to }: BarRange): string {
  return from === to ? `${from}` : `${from}–${to}`;
}
