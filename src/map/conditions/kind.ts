import type { Duration, Line, MeasuredNote } from '../../midi/index.js';
import type { Fragment, Tree } from '../../yaml/index.js';
import type { Source } from '../source/index.js';
import type { Interval } from './interval.js';

/** A condition of some kind, as those that are made of others see it. */
export interface AnyCondition {
  /** Its key in a map. */
  readonly key: string;
}

/**
 * Whether a note fits. The note may be one of the line, or such a note with other measures.
 *
 * @param previous the articulation that the onset before was given; absent where there is none
 */
export type Fits = (note: MeasuredNote, previous?: string) => boolean;

/**
 * A bound around which a performance hovers: a held time, a pace, the share of its pace for which a note is held, or
 * whether it, or the note before it, is held to the next onset (a share of 1).
 */
export type Bound =
  | { readonly measure: 'held' | 'pace'; readonly at: Duration }
  | { readonly measure: 'held-share'; readonly at: number }
  | { readonly measure: 'overlaps-next' | 'overlaps-previous' };

/** What a condition is made of, and how many of these must hold for it to hold. */
export interface Parts<C> {
  readonly holds: 'every' | 'some' | 'none';
  readonly of: readonly C[];
}

/** What can be done with a condition of any kind; handed to those that are made of others. */
export interface EveryKind {
  read(source: Source, tree: Tree): AnyCondition;
  bind(condition: AnyCondition, line: Line): Fits;
  format(condition: AnyCondition, note: MeasuredNote): string;
  /** Whether a note fits; undefined where that cannot be told, since its line is not known. */
  holds(condition: AnyCondition, note: MeasuredNote): boolean | undefined;
}

/** What every kind of condition has: how it is written, read, tested and said. */
export interface Kind<C extends AnyCondition> {
  readonly key: C['key'];
  /** What may stand behind its key in a map, with an example; `when-KEY` in the schemas' definitions. */
  readonly schema: Fragment & { readonly description: string; readonly examples: readonly [unknown] };
  /** The condition that a text means. What is faulty is left out. */
  read(source: Source, tree: Tree, every: EveryKind): C;
  /** A test of a line's notes. */
  bind(condition: C, line: Line, every: EveryKind): Fits;
  /** The measured value and what was asked of it: `held 182 ms (130ms to below 320ms)`. */
  format(condition: C, note: MeasuredNote, every: EveryKind): string;
}

/** A kind that asks something of the note itself, and how one such condition compares with others. */
export interface MeasuredKind<C extends AnyCondition> extends Kind<C> {
  /** The stretch of its measure that it takes; undefined where it takes none that can be told. */
  interval(condition: C): Interval | undefined;
  /** Whether every note that fits one fits another of this kind, where intervals do not tell. No is always right. */
  implies(narrow: C, wide: C): boolean;
  /** The durations that it measures by. */
  durations(condition: C): readonly Duration[];
  /** The bounds near which steadiness keeps the previous articulation. */
  bounds(condition: C): readonly Bound[];
}

/** A kind that is made of other conditions. */
export interface CombinedKind<C extends AnyCondition> extends Kind<C> {
  parts(condition: C): Parts<AnyCondition>;
}
