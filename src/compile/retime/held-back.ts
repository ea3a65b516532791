import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { musicPlace } from '../../midi/index.js';
import type { RetimedPart } from './state.js';

/** An onset that was moved less than it should have been. */
export interface Held {
  /** Its index in the line. */
  readonly onset: number;
  /** By how much, for the note of it that was held back most. */
  readonly ms: number;
}

/** Where notes start after a step, in ticks, by row; and what it had to hold back. */
export interface Step {
  readonly starts: Float64Array;
  readonly held: readonly Held[];
}

/** The least that is worth telling. Unit: ms. */
const least = 1;

const steps = {
  pull: { done: 'pulled', hint: 'a finer --grid, or a smaller --pull, leaves them room' },
  roll: { done: 'rolled', hint: 'a smaller --roll suits chords that follow each other so closely' },
  loosen: { done: 'loosened', hint: 'a smaller --loosen suits notes that follow each other so closely' },
} as const;

/** held-back: onsets that a step moved less than it was asked to, in one warning. */
export function heldBack(
  { line }: RetimedPart,
  step: keyof typeof steps,
  held: readonly Held[],
): readonly Diagnostic[] {
  const told = held.filter(({ ms }) => ms >= least);
  const [first] = told;
  const onset = first && line.onsets[first.onset];
  if (!onset) return [];
  const most = Math.round(told.reduce((largest, { ms }) => Math.max(largest, ms), 0));
  const who = told.length === 1 ? 'an onset is' : `${told.length} onsets, this one first, are`;
  const { done, hint } = steps[step];
  return [
    diagnostic(
      'held-back',
      musicPlace(line, onset.tick),
      `${who} ${done} by up to ${most} ms less than asked, so as to stay apart from the onsets beside`,
      hint,
    ),
  ];
}
