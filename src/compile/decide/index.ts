// Which articulation each note of a line is given, and by which rule.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { type MeasuredLine, PassingNote } from '../analyse/index.js';
import { bindChoices, type Choice, type Choices } from './choices.js';
import type { Decided } from './decided.js';
import { eachSettled, noneSettled } from './each.js';
import { rowsOf } from './rows.js';
import { steadiest } from './steadiness.js';
import { choicesAlong } from './stretches.js';
import { TopDecisions } from './tops.js';

export { articulationOf, byArticulation, type Decided, type DecidedNotes, onsetOf } from './decided.js';
export type { Decision } from './decision.js';
export { reason } from './reason.js';

/** How many onsets are decided before it is told how far it has come. */
const toldEvery = 4096;

/**
 * Decides the articulation of every note of a line: each onset by its top note, all onsets together by the cheapest way
 * through the line (steadiness), and the notes of chords by that, or each for itself (`chords: each`).
 *
 * @param onShare is told from time to time how much is done, 0–1
 * @returns one row for each note of the line, in that order, and warnings (chord-conflict). A note that no rule fits
 *   has none; a checked map has a last rule that fits every note.
 */
export function decide(
  line: MeasuredLine,
  map: ArticulationMap,
  onShare: (share: number) => void = () => {},
): { readonly decided: Decided; readonly diagnostics: readonly Diagnostic[] } {
  const choices = bindChoices(line, map);
  const chosen = chooseTops(line, choices, onShare);
  const tops = new TopDecisions(line, chosen);
  const { settled, diagnostics } = map.chords === 'top' ? noneSettled : eachSettled(line, map, choices, tops);
  return { decided: rowsOf(line, map, tops, settled), diagnostics };
}

/** What is chosen for the top note of each onset; undefined where no rule fits it. */
function chooseTops(
  { measures }: MeasuredLine,
  choices: Choices,
  onShare: (share: number) => void,
): readonly (Choice | undefined)[] {
  const nothing = { articulation: '', cost: 0, rule: -1 } as const;
  const { length } = measures.onsets;
  const passing = new PassingNote(measures);
  const along = choicesAlong(length, (onset) => passing.at(measures.topOf(onset) ?? 0), choices);
  let told = -1;
  const path = steadiest<Choice>(length, (index, previous) => {
    if (index % toldEvery === 0 && index !== told) {
      told = index;
      onShare(index / length);
    }
    const all = along.of(index, previous === '' ? undefined : previous);
    return all.length > 0 ? all : [nothing];
  });
  return path.map((choice) => (choice.articulation === '' ? undefined : choice));
}
