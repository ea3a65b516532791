import type { BarRange } from '../timing/robotic.js';
import { plural } from './plural.js';

/** Bars in words: "bar 3", "bars 3–6", "bars 3, 5–7". */
export function sayBars(ranges: readonly BarRange[]): string {
  const [first] = ranges;
  const isOne = ranges.length === 1 && first?.from === first?.to;
  return `bar${isOne ? '' : 's'} ${ranges.map(sayRange).join(', ')}`;
}

/** The same, of which no more than `most` are named: "bars 3, 5 and 2 more places". */
export function sayBarsUpTo(most: number, ranges: readonly BarRange[]): string {
  const more = ranges.length - most;
  if (more <= 0) return sayBars(ranges);
  return `bars ${ranges.slice(0, most).map(sayRange).join(', ')} and ${plural(more, 'more place')}`;
}

function sayRange({ from, to }: BarRange): string {
  return from === to ? `${from}` : `${from}–${to}`;
}
