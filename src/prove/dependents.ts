import type { Clock } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';

/** Bars from which playback starts alike. */
export interface BarRange {
  /** The first and the last bar, from 1. */
  readonly from: number;
  readonly to: number;
  /** How many notes sound wrong when playback starts at the line of one of these bars, until the next switches. */
  readonly wrongNotes: number;
}

/**
 * For each bar, how many notes sound wrong when playback starts at its line. A sequencer then sends controllers, banks
 * and programs again, but no keys: no key is latched, and none is down that was struck before. So a note sounds wrong
 * from every bar line behind one of its switches, up to the note. Bars from which all is right are left out.
 */
export class WrongFromBars {
  /** How many more notes sound wrong from each bar than from the bar before it. */
  readonly #steps = new Map<number, number>();

  /**
   * @param switched the bar of the earliest key switch that a note depends on
   * @param struck the note's own
   */
  add(switched: number, struck: number): void {
    if (switched >= struck) return;
    this.#step(switched + 1, 1);
    this.#step(struck + 1, -1);
  }

  /** In order of bars, neighbours of the same count joined. */
  ranges(): readonly BarRange[] {
    const ranges: BarRange[] = [];
    const bars = [...this.#steps].filter(([, by]) => by !== 0).sort(([a], [b]) => a - b);
    let wrongNotes = 0;
    bars.forEach(([bar, by], index) => {
      wrongNotes += by;
      const next = bars[index + 1];
      if (wrongNotes > 0 && next) ranges.push({ from: bar, to: next[0] - 1, wrongNotes });
    });
    return ranges;
  }

  #step(bar: number, by: number): void {
    this.#steps.set(bar, (this.#steps.get(bar) ?? 0) + by);
  }
}

/**
 * The bars from which the notes of a part sound wrong. Notes that sound wrong in any case are violations of their own.
 *
 * @param bars the bar of each note
 * @returns nothing where the file has no bars
 */
export function wrongFromBars(notes: HeardNotes, bars: Int32Array, clock: Clock): readonly BarRange[] {
  const wrong = new WrongFromBars();
  for (let note = 0; note < notes.length; note++) {
    if (!notes.isRight(note)) continue;
    const switches = notes.keyedAspects(note).length;
    let since = Number.POSITIVE_INFINITY;
    for (let at = 0; at < switches; at++) since = Math.min(since, notes.strikeTick(note, at));
    if (switches > 0) wrong.add(clock.position(since)?.bar ?? 0, bars[note] ?? 0);
  }
  return wrong.ranges();
}

/** How many bars ranges have. */
export function barsIn(ranges: readonly BarRange[]): number {
  return ranges.reduce((sum, { from, to }) => sum + to - from + 1, 0);
}
