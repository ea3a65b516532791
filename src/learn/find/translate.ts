import { features } from '../features.js';
import type { Ladder, Test } from '../ladder.js';
import type { Bins } from './bins.js';
import type { Condition, Rung } from './problem.js';

/** A ladder in bins as one with the bounds that a map has. */
export function translate({ cuts }: Bins, ladder: readonly Rung[]): Ladder {
  return ladder.map(({ conditions, label }) => ({
    articulation: label,
    tests: conditions
      .flatMap((condition) => testOf(cuts, condition))
      .sort((a, b) => features.indexOf(a.feature) - features.indexOf(b.feature)),
  }));
}

function testOf(cuts: Bins['cuts'], { feature, from, below }: Condition): readonly Test[] {
  const asked = features[feature];
  if (!asked) return [];
  const of = cuts[feature];
  return [{ feature: asked, from: of?.from[from] ?? null, below: of?.below[below] ?? null }];
}
