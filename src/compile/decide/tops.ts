import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import type { Choice } from './choices.js';
import type { Decision, Kept } from './decision.js';
import { crossed } from './likenesses.js';

/** What was chosen for the top notes of a line's onsets; objects are made when they are asked for. */
export class TopDecisions {
  readonly #line: MeasuredLine;
  readonly #chosen: readonly (Choice | undefined)[];
  #kept: ((onset: number) => Omit<Kept, 'near'>) | undefined;

  constructor(line: MeasuredLine, chosen: readonly (Choice | undefined)[]) {
    this.#line = line;
    this.#chosen = chosen;
  }

  /** The articulation of an onset; undefined where no rule fits it. */
  articulation(onset: number): string | undefined {
    return this.#chosen[onset]?.articulation;
  }

  /** Whether steadiness gave an onset another articulation than the plain ladder does. */
  isKept(onset: number): boolean {
    return this.#chosen[onset]?.insteadOf !== undefined;
  }

  /** The decision about an onset's top note; undefined where no rule fits it. */
  at(onset: number): Decision | undefined {
    const choice = this.#chosen[onset];
    const note = this.#line.onsets[onset]?.top;
    if (!choice || !note) return undefined;
    this.#kept ??= keptWith(this.#chosen);
    return decisionOf(note, choice, this.articulation(onset - 1), this.#kept(onset));
  }
}

/** What a choice comes to for a note. */
export function decisionOf(
  note: MeasuredNote,
  { articulation, rule, mark, insteadOf, likeness }: Choice,
  previous: string | undefined,
  kept: Omit<Kept, 'near'>,
): Decision {
  if (mark === undefined && insteadOf === undefined)
    return previous === undefined ? { note, articulation, rule } : { note, articulation, rule, previous };
  return {
    note,
    articulation,
    rule,
    ...(mark === undefined ? {} : { mark }),
    ...(insteadOf === undefined
      ? {}
      : { insteadOf, kept: { near: likeness ? crossed(likeness) : [], ...kept } }),
    ...(previous === undefined ? {} : { previous }),
  };
}

/** How many onsets in a row before each, and after it, have its articulation. Linear in onsets. */
function keptWith(chosen: readonly (Choice | undefined)[]): (onset: number) => Omit<Kept, 'near'> {
  const before = new Uint32Array(chosen.length);
  const after = new Uint32Array(chosen.length);
  const isSame = (one: number, other: number) =>
    chosen[one] !== undefined && chosen[one]?.articulation === chosen[other]?.articulation;
  for (let onset = 1; onset < chosen.length; onset++)
    before[onset] = isSame(onset, onset - 1) ? (before[onset - 1] ?? 0) + 1 : 0;
  for (let onset = chosen.length - 2; onset >= 0; onset--)
    after[onset] = isSame(onset, onset + 1) ? (after[onset + 1] ?? 0) + 1 : 0;
  return (onset) => ({ before: before[onset] ?? 0, after: after[onset] ?? 0 });
}
