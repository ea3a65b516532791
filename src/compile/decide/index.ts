// Which articulation each note of a line is given, and by which rule.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Line, MeasuredNote, Onset } from '../../midi/index.js';
import { bindChoices, type Choice, type Choices } from './choices.js';
import { settleChord } from './chord.js';
import type { Decision, Kept } from './decision.js';
import { crossed } from './likenesses.js';
import { steadiest } from './steadiness.js';
import { choicesAlong } from './stretches.js';

export type { Decision } from './decision.js';
export { reason } from './reason.js';

/** How many onsets are decided before it is told how far it has come. */
const toldEvery = 4096;

/**
 * Decides the articulation of every note of a line: each onset by its top note, all onsets together by the cheapest way
 * through the line (steadiness), and the notes of chords by that, or each for itself (`chords: each`).
 *
 * @param onShare is told from time to time how much is done, 0–1
 * @returns one decision for each note of `line.notes`, in that order, and warnings (chord-conflict). A note that no
 *   rule fits gets none; a checked map has a last rule that fits every note.
 */
export function decide(
  line: Line,
  map: ArticulationMap,
  onShare: (share: number) => void = () => {},
): { readonly decisions: readonly Decision[]; readonly diagnostics: readonly Diagnostic[] } {
  const choices = bindChoices(line, map);
  const chosen = chooseTops(line, choices, onShare);
  const kept = keptWith(chosen);
  const diagnostics: Diagnostic[] = [];
  const decisions: Decision[] = [];
  line.onsets.forEach((onset, index) => {
    const previous = chosen[index - 1]?.articulation;
    const choice = chosen[index];
    if (!choice) return;
    const top = decision(onset.top, choice, previous, kept(index));
    if (top.note.chord === 1) decisions.push(top);
    else if (map.chords === 'top') for (const one of alike(top, onset.notes)) decisions.push(one);
    else {
      const settled = settleChord(eachOf(onset, top, previous, choices), line, map);
      for (const one of settled.decisions) decisions.push(one);
      for (const one of settled.diagnostics) diagnostics.push(one);
    }
  });
  return { decisions, diagnostics };
}

/** What is chosen for the top note of each onset; undefined where no rule fits it. */
function chooseTops(
  { onsets }: Line,
  choices: Choices,
  onShare: (share: number) => void,
): readonly (Choice | undefined)[] {
  const nothing = { articulation: '', cost: 0, rule: -1 } as const;
  const along = choicesAlong(
    onsets.map(({ top }) => top),
    choices,
  );
  let told = -1;
  const path = steadiest<Choice>(onsets.length, (index, previous) => {
    if (index % toldEvery === 0 && index !== told) {
      told = index;
      onShare(index / onsets.length);
    }
    const all = along.of(index, previous === '' ? undefined : previous);
    return all.length > 0 ? all : [nothing];
  });
  return path.map((choice) => (choice.articulation === '' ? undefined : choice));
}

function decision(
  note: MeasuredNote,
  { articulation, rule, mark, insteadOf, likeness }: Choice,
  previous: string | undefined,
  kept: Omit<Kept, 'near'>,
): Decision {
  const first: Decision = { note, articulation, rule };
  if (mark === undefined && insteadOf === undefined)
    return previous === undefined ? first : { note, articulation, rule, previous };
  return {
    ...first,
    ...(mark === undefined ? {} : { mark }),
    ...(insteadOf === undefined
      ? {}
      : { insteadOf, kept: { near: likeness ? crossed(likeness) : [], ...kept } }),
    ...(previous === undefined ? {} : { previous }),
  };
}

/** How many onsets in a row before each, and after it, have its articulation. Linear in onsets. */
function keptWith(chosen: readonly (Choice | undefined)[]): (index: number) => Omit<Kept, 'near'> {
  const before = new Uint32Array(chosen.length);
  const after = new Uint32Array(chosen.length);
  const isSame = (one: number, other: number) =>
    chosen[one] !== undefined && chosen[one]?.articulation === chosen[other]?.articulation;
  for (let index = 1; index < chosen.length; index++)
    before[index] = isSame(index, index - 1) ? (before[index - 1] ?? 0) + 1 : 0;
  for (let index = chosen.length - 2; index >= 0; index--)
    after[index] = isSame(index, index + 1) ? (after[index + 1] ?? 0) + 1 : 0;
  return (index) => ({ before: before[index] ?? 0, after: after[index] ?? 0 });
}

/** What was decided for a chord's top note, for each of its notes. */
function alike(top: Decision, notes: readonly MeasuredNote[]): readonly Decision[] {
  return notes.map((note) => (note === top.note ? top : { ...top, note, decidedBy: top.note }));
}

/** Each note of a chord for itself; one that may as well have what the top note has goes with it. */
function eachOf(
  { notes }: Onset,
  top: Decision,
  previous: string | undefined,
  choices: Choices,
): readonly Decision[] {
  return notes.flatMap((note): readonly Decision[] => {
    if (note === top.note) return [top];
    const all = choices.all(note, previous);
    const choice = all.find(({ articulation }) => articulation === top.articulation) ?? all[0];
    return choice ? [decision(note, choice, previous, { before: 0, after: 0 })] : [];
  });
}
