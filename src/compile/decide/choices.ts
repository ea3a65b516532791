import { type ArticulationMap, asksPrevious, type Rule } from '../../map/index.js';
import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredLine, Measures } from '../analyse/index.js';
import { type Bounds, boundsOf } from './bounds.js';
import { bindLadder, type Ladder } from './ladder.js';
import { type Likeness, likenessesOf, TakenNote } from './likenesses.js';
import { bindMeanings, type MarkedChoice, namedByMark } from './marked.js';
import { isNearBound, stepsNear, type Touch } from './nearby.js';
import type { Candidate } from './steadiness.js';

/** What a note may be given, and why. */
export interface Choice extends Candidate {
  readonly rule: number | 'marked';
  readonly mark?: string;
  /** The rule of the plain ladder, where this is not what that gives. */
  readonly insteadOf?: number;
  /** What the note was taken for; absent where the plain ladder gives it. */
  readonly likeness?: Likeness;
}

/** A line and a map, ready to decide about notes. */
export interface Choices {
  /** Whether any of this depends on what the onset before was given. */
  readonly asksPrevious: boolean;
  /**
   * What the plain ladder gives, and what the note may be given besides where it lies near bounds: the cheapest of each
   * articulation. Empty where no rule fits.
   */
  all(note: MeasuredNote, previous: string | undefined): readonly Choice[];
}

/** Binds a map to a line. A note that is marked has no other choice. */
export function bindChoices(line: MeasuredLine, map: ArticulationMap): Choices {
  const ladder = bindLadder(map, line);
  const meant = bindMeanings(map);
  const bounds = boundsOf(map, line.clock.ticksPerWhole);
  const ofRule = map.rules.map((rule) => onlyRule(rule));
  const behind = bounds.overlapsPrevious
    ? (note: MeasuredNote) => touchBefore(line.measures, note)
    : () => undefined;
  const nearby = { ladder, bounds, share: map.steadiness, takenNote: oneTakenNote() };
  return {
    asksPrevious: map.rules.some(({ when }) => when !== undefined && asksPrevious(when)),
    all: (note, previous) => {
      const marked = note.marks.size > 0 ? namedByMark(note, map) : undefined;
      if (marked) return onlyMarked(marked);
      const rule = ladder.first(note, previous);
      if (!rule?.marked && note.marks.size > 0) {
        const choice = meant(note, ladder, previous);
        if (choice) return onlyMarked(choice);
      }
      if (!rule) return none;
      const plain = ofRule[rule.index] ?? none;
      if (rule.marked) return plain;
      const before = behind(note);
      if (!isNearBound(note, before, bounds, map.steadiness)) return plain;
      return nearbyChoices(rule, plain, { note, before, previous }, nearby);
    },
  };
}

function oneTakenNote(): (note: MeasuredNote) => TakenNote {
  let taken: TakenNote | undefined;
  return (note) => {
    taken ??= new TakenNote(note);
    return taken.standIn(note);
  };
}

const none: readonly Choice[] = [];

/** What a rule of the plain ladder gives; the same for every note, so that it is made once. */
function onlyRule({ use, index }: Rule): readonly Choice[] {
  return [{ articulation: use, cost: 0, rule: index }];
}

function onlyMarked(choice: MarkedChoice): readonly Choice[] {
  return [{ cost: 0, rule: 'marked', ...choice }];
}

/** A note, and what came before it. */
interface Behind {
  readonly note: MeasuredNote;
  readonly before: Touch | undefined;
  /** What the onset before was given. */
  readonly previous: string | undefined;
}

/** What finds the choices of notes near bounds. */
interface Nearby {
  readonly ladder: Ladder;
  readonly bounds: Bounds;
  readonly share: number;
  /** A note that can be taken for its likenesses; one object serves all of them, one after another. */
  readonly takenNote: (note: MeasuredNote) => TakenNote;
}

/** What the ladder gives to all that the note might as well have been. Rules that ask for marks are not among it. */
function nearbyChoices(
  own: Rule,
  plain: readonly Choice[],
  { note, before, previous }: Behind,
  { ladder, bounds, share, takenNote }: Nearby,
): readonly Choice[] {
  const others: { readonly rule: Rule; readonly likeness: Likeness }[] = [];
  const taken = takenNote(note);
  for (const likeness of likenessesOf(stepsNear(note, before, bounds, share))) {
    taken.take(likeness);
    const rule = ladder.first(taken, previous);
    // What the plain ladder gives costs nothing.
    if (!rule || rule.marked || rule.use === own.use) continue;
    const at = others.findIndex((other) => other.rule.use === rule.use);
    const known = others[at];
    if (!known) others.push({ rule, likeness });
    else if (likeness.cost < known.likeness.cost) others[at] = { rule, likeness };
  }
  if (others.length === 0) return plain;
  const insteadOf = own.index;
  const choices = plain.slice();
  for (const { rule, likeness } of others)
    choices.push({ articulation: rule.use, rule: rule.index, insteadOf, cost: likeness.cost, likeness });
  return choices;
}

/** How far the top note of the onset before was held towards this one. */
function touchBefore(measures: Measures, { onset }: MeasuredNote): Touch | undefined {
  const top = measures.topOf(onset - 1);
  return top === undefined
    ? undefined
    : { heldShare: measures.heldShare(top), paceMs: measures.pace(onset - 1).ms };
}
