import { movementCost } from './cost.js';
import { type Layout, rest } from './layouts.js';

/** The cheapest way through all chords. */
export interface Path {
  /** For each chord the index of its layout. */
  readonly chosen: readonly number[];
  /** In hundredths of a semitone. */
  readonly cost: number;
}

/** The least cost of being at each place of a table, and the layout that it came from. */
interface Table {
  /** For each voice its pitches, the first voice changing slowest. */
  readonly axes: readonly (readonly number[])[];
  readonly costs: Float64Array;
  readonly from: Int32Array;
}

/**
 * The sequence of layouts that costs least, exactly: for each layout of a chord the cheapest way to it is kept, from the
 * first chord to the last (dynamic programming, Bellman 1957). Its cost is the sum of
 *
 * - each layout by itself: tones that are missing or doubled, unisons, the position that was asked for, registers
 *   (`layoutCost`);
 * - each step: the semitones that each voice moves, the lowest at half, and leaps beyond a fifth (`movementCost`).
 *
 * Movement is the measure: everything else is given in hundredths of a semitone of it (`costs`). Since voices move each
 * by itself, a step is taken voice by voice through a table of all combinations of their pitches, which is as good as
 * comparing every layout with every other, and faster: combinations × pitches × voices for each chord. Of paths that
 * cost the same the first in the order of layouts is taken.
 *
 * @param chords the layouts of each chord, at least one each, all with the same voices
 * @param tuneVoice the voice whose movement is given; −1 where there is none
 */
export function cheapestPath(chords: readonly (readonly Layout[])[], tuneVoice: number): Path {
  const cameFrom: Int32Array[] = [];
  let reached: readonly number[] = [];
  chords.forEach((layouts, index) => {
    if (index === 0) {
      reached = layouts.map(({ cost }) => cost);
      return;
    }
    const table = stepped(tableOf(chords[index - 1] ?? [], reached), axesOf(layouts), tuneVoice);
    const from = new Int32Array(layouts.length);
    const places = placesIn(table.axes, layouts);
    reached = layouts.map(({ cost }, at) => {
      const place = places[at] ?? 0;
      from[at] = table.from[place] ?? 0;
      return cost + (table.costs[place] ?? Number.POSITIVE_INFINITY);
    });
    cameFrom.push(from);
  });
  let at = 0;
  for (const [index, cost] of reached.entries()) if (cost < (reached[at] ?? 0)) at = index;
  const cost = reached[at] ?? 0;
  const chosen = [at];
  for (const from of cameFrom.toReversed()) {
    at = from[at] ?? 0;
    chosen.unshift(at);
  }
  return { chosen: chords.length === 0 ? [] : chosen, cost };
}

/** The pitches of each voice in some layouts, rising. */
function axesOf(layouts: readonly Layout[]): readonly (readonly number[])[] {
  const count = layouts[0]?.pitches.length ?? 0;
  return Array.from({ length: count }, (_, voice) =>
    [...new Set(layouts.map(({ pitches }) => pitches[voice] ?? rest))].sort((a, b) => a - b),
  );
}

/** Where layouts stand in a table. */
function placesIn(axes: readonly (readonly number[])[], layouts: readonly Layout[]): readonly number[] {
  const indices = axes.map((axis) => new Map(axis.map((pitch, index) => [pitch, index])));
  return layouts.map(({ pitches }) =>
    axes.reduce((place, axis, voice) => {
      return place * axis.length + (indices[voice]?.get(pitches[voice] ?? rest) ?? 0);
    }, 0),
  );
}

function tableOf(layouts: readonly Layout[], reached: readonly number[]): Table {
  const axes = axesOf(layouts);
  const size = axes.reduce((product, { length }) => product * length, 1);
  const costs = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array(size);
  placesIn(axes, layouts).forEach((place, index) => {
    const cost = reached[index] ?? Number.POSITIVE_INFINITY;
    if (cost >= (costs[place] ?? 0)) return;
    costs[place] = cost;
    from[place] = index;
  });
  return { axes, costs, from };
}

/** Moves all voices, one after another, to the pitches of the next chord. */
function stepped(table: Table, axes: readonly (readonly number[])[], tuneVoice: number): Table {
  return axes.reduce((moved, axis, voice) => {
    const steps = (moved.axes[voice] ?? []).map((before) =>
      axis.map((after) => step(before, after, voice, tuneVoice)),
    );
    return withVoiceMoved(moved, voice, axis, steps);
  }, table);
}

function step(before: number, after: number, voice: number, tuneVoice: number): number {
  if (before === rest || after === rest || voice === tuneVoice) return 0;
  return movementCost(before, after, voice === 0);
}

/** @param steps for each of the voice's pitches what it costs to move to each of the new ones */
function withVoiceMoved(
  table: Table,
  voice: number,
  axis: readonly number[],
  steps: readonly (readonly number[])[],
): Table {
  const { axes, costs } = table;
  const inner = axes.slice(voice + 1).reduce((product, { length }) => product * length, 1);
  const old = axes[voice]?.length ?? 1;
  const outer = costs.length / (inner * old);
  const size = outer * axis.length * inner;
  const moved: Table = {
    axes: axes.with(voice, axis),
    costs: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
    from: new Int32Array(size),
  };
  for (let block = 0; block < outer; block++)
    for (let before = 0; before < old; before++) {
      const start = (block * old + before) * inner;
      moveRow(table, start, moved, block * axis.length * inner, inner, steps[before] ?? []);
    }
  return moved;
}

/** From one pitch of a voice to all its next ones, for every place of the voices behind it; the cheaper way is kept. */
function moveRow(
  { costs, from }: Table,
  start: number,
  moved: Table,
  target: number,
  inner: number,
  steps: readonly number[],
): void {
  for (let at = 0; at < inner; at++) {
    const reached = costs[start + at] ?? 0;
    if (reached === Number.POSITIVE_INFINITY) continue;
    const source = from[start + at] ?? 0;
    for (let after = 0, to = target + at; after < steps.length; after++, to += inner) {
      const whole = reached + (steps[after] ?? 0);
      if (whole >= (moved.costs[to] ?? 0)) continue;
      moved.costs[to] = whole;
      moved.from[to] = source;
    }
  }
}

/** What a step from one layout to the next costs. */
export function stepCost(from: readonly number[], to: readonly number[], tuneVoice: number): number {
  return to.reduce((sum, after, voice) => sum + step(from[voice] ?? rest, after, voice, tuneVoice), 0);
}
