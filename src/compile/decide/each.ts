import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { firstNote, type Onset } from '../../midi/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import type { Choices } from './choices.js';
import { settleChord } from './chord.js';
import type { Decision } from './decision.js';
import type { TopDecisions } from './tops.js';

/** Notes of chords that were decided each for itself, by note; undefined for one that no rule fits. */
export type Settled = ReadonlyMap<number, Decision | undefined>;

export const noneSettled = { settled: new Map(), diagnostics: [] } as const satisfies {
  readonly settled: Settled;
  readonly diagnostics: readonly Diagnostic[];
};

/** Decides the notes of chords each for itself. */
export function eachSettled(
  line: MeasuredLine,
  map: ArticulationMap,
  choices: Choices,
  tops: TopDecisions,
): { readonly settled: Settled; readonly diagnostics: readonly Diagnostic[] } {
  const settled = new Map<number, Decision | undefined>();
  const diagnostics: Diagnostic[] = [];
  for (const onset of line.onsets) {
    const top = onset.top.chord > 1 ? tops.at(onset.index, onset.top) : undefined;
    if (!top) continue;
    const first = firstNote(line.measures.onsets, onset.index);
    const decided = eachOf(onset, first, top, tops.articulation(onset.index - 1), choices);
    const chord = settleChord(decided, line, map);
    // They stand in the order of the notes, of which some may have none.
    let next = 0;
    onset.notes.forEach((note, at) => {
      const own = chord.decisions[next]?.note === note ? chord.decisions[next] : undefined;
      if (own) next += 1;
      settled.set(first + at, own);
    });
    for (const one of chord.diagnostics) diagnostics.push(one);
  }
  return { settled, diagnostics };
}

/**
 * Each note of a chord for itself; one that may as well have what the top note has goes with it.
 *
 * @param first the index of its first note
 */
function eachOf(
  { notes }: Onset,
  first: number,
  top: Decision,
  previous: string | undefined,
  choices: Choices,
): readonly Decision[] {
  const ofTop = choices.numbered.numberOf(top.articulation);
  return notes.flatMap((note, at): readonly Decision[] => {
    if (note === top.note) return [top];
    choices.find(first + at, previous);
    if (choices.length === 0) return [];
    return [choices.decision(Math.max(0, choices.of(ofTop)), note, previous, { before: 0, after: 0 })];
  });
}
