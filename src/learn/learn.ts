import { type Exception, findExceptions, type Stretch, stretchesOf } from './exceptions.js';
import { findSteadiness } from './find-steadiness.js';
import { fitLadder } from './fit.js';
import { type HeldOut, holdOut, meanSection, plainLadders, weightRight } from './folds.js';
import { articulationsOf, decideRules, type Ladder } from './ladder.js';
import { type Shift, withoutDelay } from './late.js';
import { type Lengthened, lengthenedNotes } from './lengthened.js';
import { countingRows, type Material, prepare, type Weighing } from './material.js';
import type { LearnNotes } from './notes.js';
import { steadyRules } from './steadiness.js';
import { type Unrounded, unroundedBounds } from './unrounded.js';

/** Under so many notes, what is found is a guess. */
const fewNotes = 100;

/** A ladder that takes away less than this share of the commonest articulation's mistakes, on notes not seen, is none. */
const leastUse = 0.15;

/** Articulations that change less often than every so many notes are switched by section. */
const sectionNotes = 6;

export interface LearnOptions {
  /** What a mistake counts. Default: `notes`. */
  readonly weigh?: Weighing;
  /** The most rules that the ladder may have, the last included. Default: 12. */
  readonly mostRules?: number;
  /** Whether steadiness is looked for. Default: true. */
  readonly steadiness?: boolean;
}

/** What came of it. */
export type Verdict =
  /** A ladder that serves. */
  | 'ladder'
  /** No rule fits, and articulations change seldom: they were chosen by section of the music. */
  | 'by-section'
  /** No rule fits. */
  | 'nothing-fits'
  /** Only one articulation has notes enough. */
  | 'one-articulation'
  /** None has. */
  | 'too-few';

/** Shares of all notes whose articulation is known, each between 0 and 1. */
export interface Accuracy {
  readonly ladder: number;
  /** The mean over the articulations that sound, each counting the same. */
  readonly balanced: number;
  readonly commonest: number;
  readonly singleBound: number;
}

/** A rule, and how it does. */
export interface RuleFinding {
  /** Notes with a known articulation that it decides, and how many of them sounded otherwise. */
  readonly decides: number;
  readonly wrong: number;
  readonly unrounded: readonly Unrounded[];
}

export interface Learned {
  readonly verdict: Verdict;
  /** Empty where the verdict is `too-few`. */
  readonly ladder: Ladder;
  /** A share of a bound; 0 where none helps. */
  readonly steadiness: number;
  /** How many notes have a known articulation. */
  readonly notes: number;
  readonly guess: boolean;
  readonly accuracy: Accuracy;
  /** The ladder with the best single bound. */
  readonly singleBound: Ladder;
  /** Null where there was nothing to hold out. */
  readonly heldOut: HeldOut | null;
  /** One for each rule of the ladder. */
  readonly rules: readonly RuleFinding[];
  readonly stretches: readonly Stretch[];
  /** Articulations with too few notes, and those of the sketch that never sound (0 notes). */
  readonly notLearned: readonly { readonly articulation: number; readonly notes: number }[];
  /** 1 where every switch came a note late, −1 early; the ladder is for where they should have been. */
  readonly shift: Shift;
  /** Exceptions mostly go on with what sounded before: switches were forgotten. */
  readonly forgetful: boolean;
  readonly lengthened: readonly Lengthened[];
  /** What sounded or, with a shift, was meant to: index of an articulation or −1. And the rule that decides, per row. */
  readonly labels: Int32Array;
  readonly decided: Int32Array;
}

/** Finds the few rules by which the articulations of some notes were chosen. */
export function learn(
  notes: LearnNotes,
  { weigh = 'notes', mostRules = 12, steadiness = true }: LearnOptions = {},
): Learned {
  const { shift, material } = withoutDelay(prepare(notes, weigh, mostRules), weigh);
  const rows = countingRows(material);
  if (material.classes.length === 0) return nothing(material);
  const { bottom, single } = plainLadders(material, rows);
  const about = { material, shift, bottom, single };
  if (material.classes.length === 1)
    return tell(about, {
      verdict: 'one-articulation',
      ladder: bottom,
      steadiness: 0,
      heldOut: null,
      forgetful: false,
    });
  const { ladder, forgetful } = fitLadder(material, rows, 'full');
  const steady = steadiness ? findSteadiness(material, rows, ladder) : 0;
  const heldOut = holdOut(material, steady, forgetful);
  const useful = isUseful(heldOut, weightRight(material, rows, bottom, 0) / weightOf(material, rows));
  if (ladder.length > 1 && useful)
    return tell(about, { verdict: 'ladder', ladder, steadiness: steady, heldOut, forgetful });
  const verdict = meanSection(material.labels) > sectionNotes ? 'by-section' : 'nothing-fits';
  return tell(about, { verdict, ladder: bottom, steadiness: 0, heldOut, forgetful: false });
}

/**
 * Whether a ladder serves notes that were not seen. What is commonest in a fold may differ from what is commonest in all:
 * the larger share is what has to be beaten.
 */
function isUseful(heldOut: HeldOut, commonestOfAll: number): boolean {
  const usual = Math.max(heldOut.commonest, commonestOfAll);
  return heldOut.accuracy - usual > leastUse * (1 - usual);
}

function weightOf({ weights }: Material, rows: Int32Array): number {
  return Math.max(
    1e-9,
    rows.reduce((sum, row) => sum + (weights[row] ?? 0), 0),
  );
}

type Outcome = Pick<Learned, 'verdict' | 'ladder' | 'steadiness' | 'heldOut' | 'forgetful'>;

interface About {
  readonly material: Material;
  readonly shift: Shift;
  readonly bottom: Ladder;
  readonly single: Ladder;
}

function tell({ material, shift, bottom, single }: About, outcome: Outcome): Learned {
  const { notes, columnOf, labels } = material;
  const { ladder, steadiness } = outcome;
  const plain = decideRules(ladder, notes.length, columnOf);
  const decided = steadiness > 0 ? steadyRules(ladder, notes, columnOf, steadiness) : plain;
  const exceptions = findExceptions(labels, articulationsOf(ladder, decided), decided);
  const right = (of: Ladder) =>
    shareRight(labels, articulationsOf(of, decideRules(of, notes.length, columnOf)));
  const known = knownOf(labels);
  return {
    ...outcome,
    notes: known,
    guess: known < fewNotes,
    accuracy: {
      ladder: known > 0 ? 1 - exceptions.length / known : 0,
      balanced: balancedShare(labels, articulationsOf(ladder, decided)),
      commonest: right(bottom),
      singleBound: right(single),
    },
    singleBound: single,
    rules: findings(material, ladder, plain, decided, exceptions),
    stretches: stretchesOf(exceptions, notes, labels),
    notLearned: notLearned(material),
    shift,
    lengthened: lengthenedNotes(ladder, notes, labels),
    labels,
    decided,
  };
}

function nothing(material: Material): Learned {
  const about = { material, shift: 0, bottom: [], single: [] } as const;
  return tell(about, { verdict: 'too-few', ladder: [], steadiness: 0, heldOut: null, forgetful: false });
}

function findings(
  material: Material,
  ladder: Ladder,
  plain: Int32Array,
  decided: Int32Array,
  exceptions: readonly Exception[],
): readonly RuleFinding[] {
  const unrounded = unroundedBounds(material, ladder, plain);
  return ladder.map((_, index) => ({
    decides: decided.filter((rule, row) => rule === index && (material.labels[row] ?? -1) >= 0).length,
    wrong: exceptions.filter(({ rule }) => rule === index).length,
    unrounded: unrounded[index] ?? [],
  }));
}

function notLearned({ notes, labels, few }: Material): Learned['notLearned'] {
  const sounding = new Set(labels);
  const silent = notes.articulations.flatMap((_, articulation) =>
    sounding.has(articulation) ? [] : [{ articulation, notes: 0 }],
  );
  return [...few, ...silent];
}

function knownOf(labels: Int32Array): number {
  return labels.filter((label) => label >= 0).length;
}

function shareRight(labels: Int32Array, says: Int32Array): number {
  const right = labels.filter((label, row) => label >= 0 && says[row] === label).length;
  return right / Math.max(1, knownOf(labels));
}

/** The mean over the articulations that sound of the share of each that is right. */
function balancedShare(labels: Int32Array, says: Int32Array): number {
  const of = new Map<number, { notes: number; right: number }>();
  labels.forEach((label, row) => {
    if (label < 0) return;
    const one = of.get(label) ?? { notes: 0, right: 0 };
    of.set(label, { notes: one.notes + 1, right: one.right + (says[row] === label ? 1 : 0) });
  });
  const shares = [...of.values()].map(({ notes, right }) => right / notes);
  return shares.reduce((sum, share) => sum + share, 0) / Math.max(1, shares.length);
}
