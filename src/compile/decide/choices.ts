import { type ArticulationMap, asksPrevious, type Rule } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';
import { type Bounds, boundsOf } from './bounds.js';
import { bindLadder, type Ladder } from './ladder.js';
import { Likenesses } from './likenesses.js';
import { bindMeanings, type MarkedChoice, namedByMark } from './marked.js';
import { isNearBound, type NearBound, stepsNear, type Touch } from './nearby.js';
import type { Candidate } from './steadiness.js';

/** What a note may be given, and why. */
export interface Choice extends Candidate {
  readonly rule: number | 'marked';
  readonly mark?: string;
  /** The rule of the plain ladder, where this is not what that gives. */
  readonly insteadOf?: number;
  /** The bounds that are crossed for it; none where the plain ladder gives it. */
  readonly near: readonly NearBound[];
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
export function bindChoices(line: Line, map: ArticulationMap): Choices {
  const ladder = bindLadder(map, line);
  const meant = bindMeanings(map);
  const bounds = boundsOf(map, line.clock.ticksPerWhole);
  const ofRule = map.rules.map((rule) => onlyRule(rule));
  const behind = bounds.overlapsPrevious ? (note: MeasuredNote) => touchBefore(line, note) : () => undefined;
  const nearby = { ladder, bounds, share: map.steadiness };
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
      return nearbyChoices(plain, { note, before, previous }, nearby);
    },
  };
}

const none: readonly Choice[] = [];

/** What a rule of the plain ladder gives; the same for every note, so that it is made once. */
function onlyRule({ use, index }: Rule): readonly Choice[] {
  return [{ articulation: use, cost: 0, near: [], rule: index }];
}

function onlyMarked(choice: MarkedChoice): readonly Choice[] {
  return [{ cost: 0, near: [], rule: 'marked', ...choice }];
}

/** A note, and what came before it. */
interface Behind {
  readonly note: MeasuredNote;
  readonly before: Touch | undefined;
  /** What the onset before was given. */
  readonly previous: string | undefined;
}

/** What the ladder gives to all that the note might as well have been. Rules that ask for marks are not among it. */
function nearbyChoices(
  plain: readonly Choice[],
  { note, before, previous }: Behind,
  { ladder, bounds, share }: { readonly ladder: Ladder; readonly bounds: Bounds; readonly share: number },
): readonly Choice[] {
  const best = new Map<string, Choice>();
  for (const own of plain) best.set(own.articulation, own);
  const [own] = plain;
  const instead = own === undefined || own.rule === 'marked' ? {} : { insteadOf: own.rule };
  const likenesses = new Likenesses(note, stepsNear(note, before, bounds, share));
  for (let like = 1; like < likenesses.length; like++) {
    const rule = ladder.first(likenesses.note(like), previous);
    if (!rule || rule.marked) continue;
    const cost = likenesses.cost(like);
    const known = best.get(rule.use);
    if (known && cost >= known.cost) continue;
    const near = likenesses.crossed(like);
    best.set(rule.use, { articulation: rule.use, rule: rule.index, ...instead, cost, near });
  }
  return best.size === plain.length ? plain : [...best.values()];
}

/** How far the top note of the onset before was held towards this one. */
function touchBefore({ onsets }: Line, { onset }: MeasuredNote): Touch | undefined {
  const top = onsets[onset - 1]?.top;
  return top && { heldShare: top.heldShare, paceMs: top.pace.ms };
}
