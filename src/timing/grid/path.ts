import { PlaceAssigner } from './assign.js';
import { type Beats, beatNumber, firstOnset } from './beats.js';
import type { GridModel, PlayedOnsets } from './types.js';
import { type Grids, takesNext, wayOf } from './ways.js';

/**
 * The cheapest way of every beat (see `wayOf`), given that a beat rather keeps the subdivision of the beat before it:
 * the Viterbi algorithm (Viterbi 1967) over the beats that have onsets. Linear in beats.
 */
export function cheapestPath(onsets: PlayedOnsets, beats: Beats, grids: Grids, model: GridModel): Uint8Array {
  const search = new Search(onsets, beats, grids, model);
  for (let beat = 0; beat < beats.length; beat++) search.step(beat);
  return search.path();
}

/** More than what sums of a beat's positions are rounded by, in places. */
const rounding = 1e-6;

/** Ways of one beat, and what the cheapest path to each costs, the beat included. */
class Reached {
  length = 0;
  readonly way: Uint8Array;
  readonly parts: Float64Array;
  readonly total: Float64Array;

  constructor(most: number) {
    this.way = new Uint8Array(most);
    this.parts = new Float64Array(most);
    this.total = new Float64Array(most);
  }

  put(way: number, parts: number, total: number): void {
    this.way[this.length] = way;
    this.parts[this.length] = parts;
    this.total[this.length] = total;
    this.length += 1;
  }

  /** Whether any of the ways takes the next beat's start. */
  takesNext(): boolean {
    let any = 0;
    for (let at = 0; at < this.length; at++) any |= this.way[at] ?? 0;
    return takesNext(any);
  }

  /** Leaves out what costs more than a limit: that of ways that take the next beat's start, and of those that do not. */
  keepUpTo(limits: Float64Array): void {
    const { length } = this;
    this.length = 0;
    for (let at = 0; at < length; at++) {
      const [way, total] = [this.way[at] ?? 0, this.total[at] ?? 0];
      if (total <= (limits[way & 1] ?? 0)) this.put(way, this.parts[at] ?? 0, total);
    }
  }
}

class Search {
  readonly #onsets: PlayedOnsets;
  readonly #beats: Beats;
  readonly #grids: Grids;
  readonly #model: GridModel;
  readonly #places = new PlaceAssigner();
  /** The way of the beat before, for each beat and way. */
  readonly #from: Uint8Array;
  readonly #ways: number;
  #before: Reached;
  #now: Reached;
  /** Whether a beat follows the one before it without a gap, and whether that one may take its start. */
  #isAdjacent = false;
  #isTaken = false;
  /** What paths cost up to a beat whose start is free, and to one whose start is taken; and from which way. */
  readonly #costs = new Float64Array(2);
  readonly #sources = new Uint8Array(2);
  /**
   * What a path may cost up to this beat, where the next one's start is left free, and where it is taken. From any way
   * the next beat is reached at no more than the cost of a change: a path that is dearer by more than that than another
   * one is not part of the cheapest.
   */
  readonly #limits = new Float64Array(2);

  constructor(onsets: PlayedOnsets, beats: Beats, grids: Grids, model: GridModel) {
    this.#onsets = onsets;
    this.#beats = beats;
    this.#grids = grids;
    this.#model = model;
    this.#ways = 4 * grids.length;
    this.#from = new Uint8Array(beats.length * this.#ways);
    this.#before = new Reached(this.#ways);
    this.#now = new Reached(this.#ways);
  }

  /** Goes on by a beat; they come in order. */
  step(beat: number): void {
    [this.#before, this.#now] = [this.#now, this.#before];
    this.#now.length = 0;
    this.#limits.fill(Number.POSITIVE_INFINITY);
    this.#isAdjacent = beat > 0 && beatNumber(this.#beats, beat) === beatNumber(this.#beats, beat - 1) + 1;
    this.#isTaken = this.#isAdjacent && this.#before.takesNext();
    const onsets = firstOnset(this.#beats, beat + 1) - firstOnset(this.#beats, beat);
    for (let grid = 0; grid < this.#grids.length; grid++) {
      const parts = this.#grids.parts(grid, onsets);
      if (parts > 0) this.#tryGrid(beat, grid, parts);
    }
    this.#now.keepUpTo(this.#limits);
  }

  /** The cheapest way of every beat. */
  path(): Uint8Array {
    const path = new Uint8Array(this.#beats.length);
    let [way, least] = [0, Number.POSITIVE_INFINITY];
    for (let at = 0; at < this.#now.length; at++) {
      const total = this.#now.total[at] ?? 0;
      if (total < least) [way, least] = [this.#now.way[at] ?? 0, total];
    }
    for (let beat = path.length - 1; beat >= 0; beat--) {
      path[beat] = way;
      way = this.#from[beat * this.#ways + way] ?? 0;
    }
    return path;
  }

  #tryGrid(beat: number, grid: number, parts: number): void {
    const starts = this.#isTaken ? 2 : 1;
    for (let start = 0; start < starts; start++) this.#arrive(start, parts);
    const nexts = this.#mayTakeNext(beat, parts) ? 2 : 1;
    const cost = this.#grids.cost(grid);
    const cheapest = Math.min(this.#costs[0] ?? 0, this.#costs[starts - 1] ?? 0) + cost;
    if (cheapest > Math.max(this.#limits[0] ?? 0, this.#limits[nexts - 1] ?? 0)) return;
    const first = firstOnset(this.#beats, beat);
    const end = firstOnset(this.#beats, beat + 1);
    this.#places.pool(this.#onsets.beats, first, end, beatNumber(this.#beats, beat), parts);
    for (let start = 0; start < starts; start++)
      for (let next = 0; next < nexts; next++) {
        const total = this.#total(beat, parts, cost, start, next);
        if (total === Number.POSITIVE_INFINITY) continue;
        const way = wayOf(grid, start === 1, next === 1);
        this.#now.put(way, parts, total);
        this.#from[beat * this.#ways + way] = this.#sources[start] ?? 0;
        const limit = total + Math.max(0, this.#model.change);
        this.#limits[next] = Math.min(this.#limits[next] ?? 0, limit);
      }
  }

  /**
   * Whether the last onset may come to stand on the next beat: not where no onset, less those before it, lies nearer to
   * it than to the place before, since what is pooled is no later than the latest of it. Most beats are done with here.
   */
  #mayTakeNext(beat: number, parts: number): boolean {
    const [first, end] = [firstOnset(this.#beats, beat), firstOnset(this.#beats, beat + 1)];
    const latest = parts + first - end + 0.5 - rounding;
    const start = beatNumber(this.#beats, beat);
    let mayTake = end - first >= parts;
    for (let onset = first; onset < end && !mayTake; onset++)
      mayTake = ((this.#onsets.beats[onset] ?? 0) - start) * parts - (onset - first) >= latest;
    return mayTake;
  }

  /** What the cheapest path to a way of a beat costs; endless where it is above the limit, or there is none. */
  #total(beat: number, parts: number, cost: number, start: number, next: number): number {
    const before = this.#costs[start] ?? 0;
    const high = parts - 1 + next;
    const isPossible =
      before + cost <= (this.#limits[next] ?? 0) &&
      this.#places.hasRoom(start, high) &&
      (next === 0 || this.#places.last(start, high) === parts);
    return isPossible ? before + (cost + this.#misfit(beat, parts, start, high)) : Number.POSITIVE_INFINITY;
  }

  /** Finds the cheapest path up to a beat that is divided into parts; endless where there is none. */
  #arrive(start: number, parts: number): void {
    const before = this.#before;
    let least = before.length === 0 ? 0 : Number.POSITIVE_INFINITY;
    for (let at = 0; at < before.length; at++) {
      const way = before.way[at] ?? 0;
      if ((this.#isAdjacent && takesNext(way)) !== (start === 1)) continue;
      const total = (before.total[at] ?? 0) + (before.parts[at] === parts ? 0 : this.#model.change);
      if (total >= least) continue;
      least = total;
      this.#sources[start] = way;
    }
    this.#costs[start] = least;
  }

  /** Minus the log-likelihood of normally distributed distances, without its constant. */
  #misfit(beat: number, parts: number, low: number, high: number): number {
    const { beats, msPerBeat } = this.#onsets;
    const [first, end] = [firstOnset(this.#beats, beat), firstOnset(this.#beats, beat + 1)];
    const start = beatNumber(this.#beats, beat);
    let sum = 0;
    for (let onset = first; onset < end; onset++) {
      const place = this.#places.at(onset - first, low, high);
      const distance = ((beats[onset] ?? 0) - start - place / parts) * (msPerBeat[onset] ?? 0);
      sum += distance * distance;
    }
    return sum / (2 * this.#model.jitterMs * this.#model.jitterMs);
  }
}
