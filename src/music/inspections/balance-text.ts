import { escapeText } from '../../diagnostics/index.js';
import { formatBars } from '../../midi/index.js';
import type { Covered } from '../balance/index.js';
import type { BarBalance } from './balance.js';

/** One section covering another over a stretch of bars, with the most that it does so by. */
export interface CoveredBars {
  from: number;
  to: number;
  covered: Covered;
}

/**
 * What covers what, in plain sentences: coveredBars of bars, and the change that would mend each. Strengths after
 * Rimsky-Korsakov, Principles of Orchestration, chapter I.
 */
export function balanceText(bars: readonly BarBalance[]): string {
  if (bars.length === 0) return '';
  const heading = `Balance over ${bars.length} bars in which sections play together (strengths after Rimsky-Korsakov):`;
  const lines = coveredBars(bars).map(({ from, to, covered }) => {
    return `  ${formatBars([{ from, to }])}: ${escapeText(formatCovered(covered))}`;
  });
  return [heading, ...(lines.length > 0 ? lines : ['  nothing covers anything'])].join('\n');
}

/** One section covering another, in words; not escaped. */
export function formatCovered({ name, by, excess, suggested }: Covered): string {
  return `${name} covered by ${by} (${tenth(excess)} dB stronger; ${tenth(suggested)} dB on the latter would mend it)`;
}

/** Successive bars in which one section covers another are told as one. */
export function coveredBars(bars: readonly BarBalance[]): readonly CoveredBars[] {
  const open = new Map<string, CoveredBars>();
  const found: CoveredBars[] = [];
  bars.forEach(({ bar, covered }, index) => {
    const before = bars[index - 1]?.bar;
    for (const one of covered) {
      const key = `${one.name}\n${one.by}`;
      const known = open.get(key);
      if (known && known.to === before) {
        known.to = bar;
        if (one.excess > known.covered.excess) known.covered = one;
      } else {
        const stretch = { from: bar, to: bar, covered: one };
        open.set(key, stretch);
        found.push(stretch);
      }
    }
  });
  return found;
}

function tenth(value: number): string {
  return `${value < 0 ? '−' : ''}${Math.abs(Math.round(value * 10) / 10)}`;
}
