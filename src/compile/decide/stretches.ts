import type { Onsets } from '../../midi/index.js';
import { topNote } from '../../midi/index.js';
import type { Choices } from './choices.js';
import type { Candidates } from './steadiness.js';

/**
 * The choices of a line's onsets by their top notes. A note near a bound is only ever given what the plain ladder gives
 * to a note around it: to one of the stretch of notes near bounds in which it stands, or to the clear note at either end
 * of it. Three staccatos of three lengths do not become legato because that would be one articulation.
 *
 * To be asked for in order of onset: of a long line only one stretch is kept.
 */
export class ChoicesAlong implements Candidates {
  readonly #onsets: Onsets;
  readonly #choices: Choices;
  /** What no rule fits has this instead of an articulation. */
  readonly #unfit: number;
  /** Onsets near bounds, and the clear one that ends them. */
  #from = 0;
  #to = 0;
  /** Where the choices of each begin, behind what the plain ladder gives to the one before, and all of them. */
  readonly #begins: number[] = [];
  readonly articulations: number[] = [];
  readonly costs: number[] = [];
  /** Whether the plain ladder gives an articulation to one of them, or to the clear onset before them. */
  readonly #around: Uint8Array;
  /** What it gives to the last. */
  #last: number;
  /** The choices of the onset that was asked for last. */
  from = 0;
  to = 0;

  constructor(onsets: Onsets, choices: Choices) {
    this.#onsets = onsets;
    this.#choices = choices;
    this.#unfit = choices.numbered.names.length;
    this.#last = this.#unfit;
    this.#around = new Uint8Array(this.#unfit + 1);
  }

  find(onset: number, previous: number | undefined): void {
    while (onset >= this.#to && this.#to < this.#onsets.length) this.#nextStretch();
    let at = onset - this.#from;
    if (this.#choices.asksPrevious) {
      at = 0;
      this.#choices.find(topNote(this.#onsets, onset), this.#nameOf(previous));
      this.#begins[1] = this.#putChoices(0);
      this.#keepAround(1);
    }
    this.from = this.#begins[at] ?? 0;
    this.to = this.#begins[at + 1] ?? 0;
  }

  #nextStretch(): void {
    const choices = this.#choices;
    const from = this.#to;
    this.#around.fill(0);
    this.#around[this.#last] = 1;
    this.#begins[0] = 0;
    let onset = from;
    do {
      choices.find(topNote(this.#onsets, onset), this.#nameOf(this.#last));
      this.#begins[onset - from + 1] = this.#putChoices(this.#begins[onset - from] ?? 0);
      this.#last = choices.length > 0 ? choices.articulation(0) : this.#unfit;
      this.#around[this.#last] = 1;
      onset += 1;
    } while (choices.length > 1 && onset < this.#onsets.length);
    this.#from = from;
    this.#to = onset;
    this.#keepAround(onset - from);
  }

  /** Puts the choices that were found into columns; returns where they end. */
  #putChoices(from: number): number {
    const choices = this.#choices;
    this.articulations[from] = this.#unfit;
    this.costs[from] = 0;
    for (let choice = 0; choice < choices.length; choice++) {
      this.articulations[from + choice] = choices.articulation(choice);
      this.costs[from + choice] = choices.cost(choice);
    }
    return from + Math.max(1, choices.length);
  }

  /** Of the choices of the first so many onsets, leaves out what is given to none around. */
  #keepAround(onsets: number): void {
    let end = 0;
    for (let onset = 0; onset < onsets; onset++) {
      const [from, to] = [this.#begins[onset] ?? 0, this.#begins[onset + 1] ?? 0];
      this.#begins[onset] = end;
      for (let at = from; at < to; at++) {
        const articulation = this.articulations[at] ?? 0;
        if (at > from && this.#around[articulation] === 0) continue;
        this.articulations[end] = articulation;
        this.costs[end] = this.costs[at] ?? 0;
        end += 1;
      }
    }
    this.#begins[onsets] = end;
  }

  #nameOf(articulation: number | undefined): string | undefined {
    return articulation === undefined ? undefined : this.#choices.numbered.names[articulation];
  }
}
