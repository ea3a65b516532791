import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import type { Choices } from './choices.js';
import type { Decision, Kept } from './decision.js';
import type { Path } from './steadiness.js';

/** What was chosen for the top notes of a line's onsets. Why it was is found again when somebody asks. */
export class TopDecisions {
  readonly #line: MeasuredLine;
  readonly #choices: Choices;
  readonly #chosen: Path;
  #kept: ((onset: number) => Omit<Kept, 'near'>) | undefined;

  constructor(line: MeasuredLine, choices: Choices, chosen: Path) {
    this.#line = line;
    this.#choices = choices;
    this.#chosen = chosen;
  }

  /** The number of an onset's articulation; that of the map's articulations where no rule fits it. */
  number(onset: number): number {
    return this.#chosen.articulation[onset] ?? 0;
  }

  /** The articulation of an onset; undefined where no rule fits it, and where there is no such onset. */
  articulation(onset: number): string | undefined {
    const number = this.#chosen.articulation[onset];
    return number === undefined ? undefined : this.#choices.numbered.names[number];
  }

  /** Whether steadiness gave an onset another articulation than the plain ladder does. */
  isKept(onset: number): boolean {
    return (this.#chosen.candidate[onset] ?? 0) > 0;
  }

  /** The decision about an onset's top note, which is given; undefined where no rule fits it. */
  at(onset: number, note: MeasuredNote): Decision | undefined {
    const index = this.#line.measures.topOf(onset);
    if (index === undefined || this.articulation(onset) === undefined) return undefined;
    this.#kept ??= keptWith(this.#chosen.articulation, this.#choices.numbered.names.length);
    const previous = this.articulation(onset - 1);
    this.#choices.find(index, previous);
    return this.#choices.decision(this.#choices.of(this.number(onset)), note, previous, this.#kept(onset));
  }
}

/**
 * How many onsets in a row before each, and after it, have its articulation. Linear in onsets.
 *
 * @param unfit what those have that no rule fits
 */
function keptWith(chosen: Uint16Array, unfit: number): (onset: number) => Omit<Kept, 'near'> {
  const before = new Uint32Array(chosen.length);
  const after = new Uint32Array(chosen.length);
  const isSame = (one: number, other: number) => chosen[one] !== unfit && chosen[one] === chosen[other];
  for (let onset = 1; onset < chosen.length; onset++)
    before[onset] = isSame(onset, onset - 1) ? (before[onset - 1] ?? 0) + 1 : 0;
  for (let onset = chosen.length - 2; onset >= 0; onset--)
    after[onset] = isSame(onset, onset + 1) ? (after[onset + 1] ?? 0) + 1 : 0;
  return (onset) => ({ before: before[onset] ?? 0, after: after[onset] ?? 0 });
}
