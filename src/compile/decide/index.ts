// Which articulation each note of a line is given, and by which rule.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import { Choices } from './choices.js';
import type { Decided } from './decided.js';
import { eachSettled, noneSettled } from './each.js';
import { rowsOf } from './rows.js';
import { type Path, steadiest } from './steadiness.js';
import { ChoicesAlong } from './stretches.js';
import { TopDecisions } from './tops.js';

export {
  articulationOf,
  byArticulation,
  byArticulationAndPitch,
  type Decided,
  type DecidedNotes,
  decisionsOf,
  onsetOf,
} from './decided.js';
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
  const choices = new Choices(line, map);
  const tops = new TopDecisions(line, choices, chooseTops(line, choices, onShare));
  const { settled, diagnostics } = map.chords === 'top' ? noneSettled : eachSettled(line, map, choices, tops);
  return { decided: rowsOf(line, choices.numbered, tops, settled), diagnostics };
}

/** What is chosen for the top note of each onset. */
function chooseTops({ measures }: MeasuredLine, choices: Choices, onShare: (share: number) => void): Path {
  const { length } = measures.onsets;
  return steadiest(length, new ChoicesAlong(measures.onsets, choices), (onset) => {
    if (onset % toldEvery === 0) onShare(onset / length);
  });
}
