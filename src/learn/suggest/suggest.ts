import { type Bound, shares, times } from '../bounds.js';
import type { LearnNotes } from '../notes.js';
import { type Break, naturalBreaks } from './breaks.js';
import { type Density, densityOf, heightAt } from './density.js';

/** The measures of a take that a histogram is made of. */
export type Measure = 'held-share' | 'held' | 'pace';

/** A bound that a map has: by which measure, and where. In percent or ms. */
export interface MapBound {
  readonly measure: Measure;
  readonly value: number;
  /** As the map spells it. */
  readonly text: string;
}

/** The articulations of all rows with the map as it is, or with one bound at another value. */
export type Decide = (moved?: { readonly bound: MapBound; readonly to: number }) => ArrayLike<number>;

/** A bar of a histogram: values from `from` to below `to`. */
export interface Bar {
  readonly from: number;
  readonly to: number;
  readonly notes: number;
}

/** How one measure of a take falls. */
export interface Fall {
  readonly measure: Measure;
  readonly notes: number;
  readonly bars: readonly Bar[];
  readonly breaks: readonly Break[];
}

/** What another bound would give. */
export interface Alternative {
  readonly bound: Bound;
  /** Notes within 10 % of it. */
  readonly near: number;
  /** Notes that would lie on its other side, against the bound as it is. */
  readonly crossing: number;
  /** With a map's rules: notes whose articulation changes, and how often the line then changes articulation in 100 notes. */
  readonly changed?: number;
  readonly switches?: number;
}

/** A bound of the map, and how it lies in this take. */
export interface BoundFinding {
  readonly bound: MapBound;
  /** Notes under it, within 10 % of it, and all. */
  readonly below: number;
  readonly near: number;
  readonly notes: number;
  /** Height there over the height of the heap that it stands in; 1 is its very top. */
  readonly height: number;
  readonly cutsHeap: boolean;
  readonly alternatives: readonly Alternative[];
  readonly switches?: number;
}

export interface Suggested {
  readonly falls: readonly Fall[];
  readonly bounds: readonly BoundFinding[];
}

/** A bound cuts a heap where it stands higher than this share of the heap, and this share of the notes lies within 10 %. */
const highShare = 0.5;
const nearShare = 0.04;

/** How near is near, as a share of a bound. */
const nearness = 0.1;

const measures: readonly Measure[] = ['held-share', 'held', 'pace'];

/**
 * How the lengths of a take fall, where its natural breaks are, which bounds of a map cut through a heap, and what bounds
 * at the breaks would give.
 */
export function suggest(notes: LearnNotes, bounds: readonly MapBound[], decide?: Decide): Suggested {
  const asked = new Map(measures.map((measure) => [measure, lookAt(notes, measure)]));
  return {
    falls: [...asked.values()].map(({ fall }) => fall),
    bounds: bounds.flatMap((bound) => {
      const of = asked.get(bound.measure);
      return of && of.values.length > 0 ? [findingOf(bound, of, decide)] : [];
    }),
  };
}

interface Look {
  readonly values: Float64Array;
  readonly density: Density;
  readonly fall: Fall;
}

function lookAt(notes: LearnNotes, measure: Measure): Look {
  const values = valuesOf(notes, measure);
  const density = densityOf(values);
  const human = measure === 'held-share' ? shares : times;
  return {
    values,
    density,
    fall: {
      measure,
      notes: values.length,
      bars: barsOf(values, measure),
      breaks: naturalBreaks(density, human),
    },
  };
}

/** Rows that measure something: the last of a piece has no interval of its own. */
function valuesOf(notes: LearnNotes, measure: Measure): Float64Array {
  const column = { held: notes.heldMs, 'held-share': notes.heldShare, pace: notes.paceMs }[measure];
  const hasNext = (row: number) => row + 1 < notes.length && notes.piece[row] === notes.piece[row + 1];
  return Float64Array.from(column).filter((value, row) => value > 0 && (measure === 'held' || hasNext(row)));
}

/** Shares in steps of 10 %, times in steps of half an octave, from the shortest to the longest that has notes. */
function barsOf(values: Float64Array, measure: Measure): readonly Bar[] {
  if (values.length === 0) return [];
  const edges =
    measure === 'held-share'
      ? [...Array.from({ length: 16 }, (_, index) => index * 10), Infinity]
      : [0, ...Array.from({ length: 21 }, (_, index) => 10 * 2 ** (index / 2)), Infinity];
  const bars = edges.slice(0, -1).map((from, index): Bar => {
    const to = edges[index + 1] ?? Infinity;
    return { from, to, notes: values.filter((value) => value >= from && value < to).length };
  });
  const first = bars.findIndex(({ notes }) => notes > 0);
  const last = bars.findLastIndex(({ notes }) => notes > 0);
  return bars.slice(first, last + 1);
}

function findingOf(
  bound: MapBound,
  { values, density, fall }: Look,
  decide: Decide | undefined,
): BoundFinding {
  const now = decide?.();
  const near = nearTo(values, bound.value);
  const height =
    heightAt(density, bound.value) / Math.max(1e-9, heapHeight(density, bound.value, fall.breaks));
  return {
    bound,
    below: values.filter((value) => value < bound.value).length,
    near,
    notes: values.length,
    height,
    cutsHeap: height >= highShare && near >= nearShare * values.length,
    alternatives: fall.breaks
      .filter((one) => one.bound.value !== bound.value)
      .map((one) => alternative(bound, one.bound, values, now, decide)),
    ...(now ? { switches: switchesIn(now) } : {}),
  };
}

function alternative(
  bound: MapBound,
  to: Bound,
  values: Float64Array,
  now: ArrayLike<number> | undefined,
  decide: Decide | undefined,
): Alternative {
  const low = Math.min(bound.value, to.value);
  const high = Math.max(bound.value, to.value);
  const then = decide?.({ bound, to: to.value });
  return {
    bound: to,
    near: nearTo(values, to.value),
    crossing: values.filter((value) => value >= low && value < high).length,
    ...(now && then
      ? {
          changed: Array.from(then).filter((articulation, row) => articulation !== now[row]).length,
          switches: switchesIn(then),
        }
      : {}),
  };
}

function nearTo(values: Float64Array, bound: number): number {
  return values.filter((value) => Math.abs(value - bound) <= nearness * bound).length;
}

/** Changes of articulation in 100 notes. */
function switchesIn(articulations: ArrayLike<number>): number {
  let changes = 0;
  for (let row = 1; row < articulations.length; row++)
    if (articulations[row] !== articulations[row - 1]) changes++;
  return (100 * changes) / Math.max(1, articulations.length);
}

/** The highest point between the breaks on both sides of a value. */
function heapHeight({ at, height }: Density, value: number, breaks: readonly Break[]): number {
  const lows = breaks.map(({ lowest }) => Math.log(lowest));
  const log = Math.log(value);
  // A bound that stands in a valley is measured by the lower of the heaps beside it, and is low in any case.
  const from = Math.max(-Infinity, ...lows.filter((low) => low < log));
  const to = Math.min(Infinity, ...lows.filter((low) => low > log));
  let highest = 0;
  at.forEach((where, cell) => {
    if (where >= from && where <= to) highest = Math.max(highest, height[cell] ?? 0);
  });
  return highest;
}
