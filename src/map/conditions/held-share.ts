import { type Fragment, refersTo, type Tree } from '../../yaml/index.js';
import { field, present, type Source, text } from '../source/index.js';
import type { MeasuredKind } from './kind.js';

/** Shares of the interval: 0.5 for 50 %. From inclusive, below exclusive; either may be absent. */
export interface ShareRange {
  readonly from?: number;
  readonly below?: number;
}

export interface HeldShareCondition {
  readonly key: 'held-share';
  readonly range: ShareRange;
}

/** `held-share`: held ÷ pace, the share of the interval to the next onset that the note fills. */
export const heldShare: MeasuredKind<HeldShareCondition> = {
  key: 'held-share',
  schema: {
    description:
      'The share of its pace for which the note is held, in percent; over 100% it overlaps the next. A note before a rest is measured against the interval of its neighbours: where the silence behind it is longer than three times the longest interval of the two onsets before it and the two after it, that interval counts, of which it fills at most 100%. So it is for the last note.',
    examples: [{ below: '50%' }],
    type: 'object',
    additionalProperties: false,
    minProperties: 1,
    properties: {
      from: refersTo('share', { description: 'The least that fits (inclusive).' }),
      below: refersTo('share', { description: 'What no longer fits (exclusive).' }),
    },
  } satisfies Fragment & { readonly description: string; readonly examples: readonly [unknown] },
  read: (source, tree) => ({ key: 'held-share', range: readShares(source, tree) }),
  bind:
    ({ range: { from = 0, below = Number.POSITIVE_INFINITY } }) =>
    ({ heldShare: share }) =>
      share >= from && share < below,
  format: ({ range }, { heldShare: share }) =>
    `held ${percent(share)} of its interval (${formatShares(range)})`,
  interval: ({ range }) => ({
    measure: 'held-share',
    from: range.from ?? 0,
    end: range.below ?? Number.POSITIVE_INFINITY,
    whole: { from: 0, end: Number.POSITIVE_INFINITY },
  }),
  implies: () => false,
  durations: () => [],
  bounds: ({ range: { from, below } }) =>
    [from, below].flatMap((at) => (at === undefined ? [] : [{ measure: 'held-share', at } as const])),
};

function readShares(source: Source, tree: Tree): ShareRange {
  const [fromTree, belowTree] = [field(tree, 'from'), field(tree, 'below')];
  const range = present<ShareRange>({ from: share(source, fromTree), below: share(source, belowTree) });
  if (range.from !== undefined && range.below !== undefined && range.from >= range.below)
    source.report(
      'range-reversed',
      tree,
      `nothing is at least ${String(fromTree?.data)} and below ${String(belowTree?.data)}`,
      'from is the least that fits, below the first that no longer does',
    );
  return range;
}

function share(source: Source, tree: Tree | undefined): number | undefined {
  const spelled = text(source, tree);
  return spelled === undefined ? undefined : Number.parseFloat(spelled) / 100;
}

function percent(value: number): string {
  return Number.isFinite(value) ? `${Math.round(value * 1000) / 10} %` : 'all';
}

function formatShares({ from, below }: ShareRange): string {
  const spell = (value: number) => `${Math.round(value * 1e5) / 1e3}%`;
  if (from !== undefined && below !== undefined) return `${spell(from)} to below ${spell(below)}`;
  if (below !== undefined) return `below ${spell(below)}`;
  return from === undefined ? 'any' : `from ${spell(from)}`;
}
