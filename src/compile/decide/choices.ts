import { type ArticulationMap, asksPrevious } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';
import { type Bounds, boundsOf } from './bounds.js';
import { bindLadder, type Ladder } from './ladder.js';
import { bindMeanings, type MeantByMark, namedByMark } from './marked.js';
import { likenesses, type NearBound, type Touch } from './nearby.js';
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
  const plain = (note: MeasuredNote, previous: string | undefined) =>
    plainChoice(note, previous, { map, ladder, meant });
  return {
    asksPrevious: map.rules.some(({ when }) => when !== undefined && asksPrevious(when)),
    all: (note, previous) => {
      const own = plain(note, previous);
      if (!own) return [];
      if (map.steadiness === 0 || own.mark !== undefined || isMarkedRule(map, own)) return [own];
      return nearbyChoices(own, { note, before: touchBefore(line, note), previous }, { map, ladder, bounds });
    },
  };
}

function plainChoice(
  note: MeasuredNote,
  previous: string | undefined,
  {
    map,
    ladder,
    meant,
  }: { readonly map: ArticulationMap; readonly ladder: Ladder; readonly meant: MeantByMark },
): Choice | undefined {
  const plain = { cost: 0, near: [] } as const;
  const named = namedByMark(note, map);
  if (named) return { ...plain, rule: 'marked', ...named };
  const rule = ladder.first(note, previous);
  if (!rule?.marked && note.marks.size > 0) {
    const choice = meant(note, ladder, previous);
    if (choice) return { ...plain, rule: 'marked', ...choice };
  }
  return rule && { ...plain, articulation: rule.use, rule: rule.index };
}

function isMarkedRule(map: ArticulationMap, { rule }: Choice): boolean {
  return rule === 'marked' || map.rules[rule]?.marked !== undefined;
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
  own: Choice,
  { note, before, previous }: Behind,
  {
    map,
    ladder,
    bounds,
  }: { readonly map: ArticulationMap; readonly ladder: Ladder; readonly bounds: Bounds },
): readonly Choice[] {
  const best = new Map<string, Choice>([[own.articulation, own]]);
  const instead = own.rule === 'marked' ? {} : { insteadOf: own.rule };
  for (const { note: like, cost, crossed } of likenesses(note, before, bounds, map.steadiness)) {
    if (crossed.length === 0) continue;
    const rule = ladder.first(like, previous);
    if (!rule || rule.marked) continue;
    const known = best.get(rule.use);
    if (!known || cost < known.cost)
      best.set(rule.use, { articulation: rule.use, rule: rule.index, ...instead, cost, near: crossed });
  }
  return [...best.values()];
}

/** How far the top note of the onset before was held towards this one. */
function touchBefore({ onsets }: Line, { onset }: MeasuredNote): Touch | undefined {
  const top = onsets[onset - 1]?.top;
  return top && { heldShare: top.heldShare, paceMs: top.pace.ms };
}
