// Which articulation each note of a line is given, and by which rule.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap, Rule } from '../../map/index.js';
import type { Line, MeasuredNote } from '../../midi/index.js';
import { boundsOf } from './bounds.js';
import { settleChord } from './chord.js';
import type { Decision } from './decision.js';
import { staysWithPrevious } from './hysteresis.js';
import { bindLadder } from './ladder.js';
import { bindMeanings, namedByMark } from './marked.js';

export type { Decision } from './decision.js';
export { reason } from './reason.js';

/**
 * Decides the articulation of every note of a line.
 *
 * @returns one decision for each note of `line.notes`, in that order, and warnings (chord-conflict). A note that no
 *   rule fits gets none; a checked map has a last rule that fits every note.
 */
export function decide(
  line: Line,
  map: ArticulationMap,
): { readonly decisions: readonly Decision[]; readonly diagnostics: readonly Diagnostic[] } {
  const decideBehind = bindNote(line, map);
  const decideNote = (note: MeasuredNote, before: Decision | undefined): Decision | undefined => {
    const decision = decideBehind(note, before);
    return decision && before ? { ...decision, previous: before.articulation } : decision;
  };
  const diagnostics: Diagnostic[] = [];
  const decisions: Decision[] = [];
  let previous: Decision | undefined;
  for (const onset of line.onsets) {
    const top = decideNote(onset.top, previous);
    const isOne = map.chords === 'top' || onset.notes.length === 1;
    const { decisions: ofOnset, diagnostics: found } = isOne
      ? { decisions: alike(top, onset.notes), diagnostics: [] }
      : settleChord(
          onset.notes.flatMap((note) => decideNote(note, previous) ?? []),
          line,
          map,
        );
    for (const one of ofOnset) decisions.push(one);
    for (const one of found) diagnostics.push(one);
    previous = top;
  }
  return { decisions, diagnostics };
}

/** What was decided for a chord's top note, for each of its notes. */
function alike(top: Decision | undefined, notes: readonly MeasuredNote[]): readonly Decision[] {
  return top ? notes.map((note) => (note === top.note ? top : { ...top, note, decidedBy: top.note })) : [];
}

function bindNote(
  line: Line,
  map: ArticulationMap,
): (note: MeasuredNote, previous: Decision | undefined) => Decision | undefined {
  const ladder = bindLadder(map, line);
  const bounds = boundsOf(map, line.clock.ticksPerWhole);
  const meant = bindMeanings(map);
  const isKept = (note: MeasuredNote, rule: Rule, before: Rule) =>
    before !== rule &&
    before.use !== rule.use &&
    staysWithPrevious(note, before, ladder, bounds, map.steadiness);
  return (note, previous) => {
    const named = namedByMark(note, map);
    if (named) return { note, rule: 'marked', ...named };
    const before = previous?.articulation;
    const rule = ladder.first(note, before);
    if (!rule?.marked && note.marks.size > 0) {
      const choice = meant(note, ladder, before);
      if (choice) return { note, rule: 'marked', ...choice };
    }
    if (!rule) return undefined;
    const kept = previous && previous.rule !== 'marked' ? map.rules[previous.rule] : undefined;
    if (map.steadiness > 0 && kept && isKept(note, rule, kept))
      return { note, articulation: kept.use, rule: kept.index, insteadOf: rule.index };
    return { note, articulation: rule.use, rule: rule.index };
  };
}
