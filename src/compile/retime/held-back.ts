import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { musicPlace } from '../../midi/index.js';
import type { RetimedPart } from './state.js';

/** The least that is worth telling. Unit: ms. */
const least = 1;

/** Onsets that were moved less than they should have been, as far as they are told. */
export class Held {
  /** How many they are. */
  count = 0;
  /** The index of the first in the line. */
  first = 0;
  /** How much less the one was moved that was held back most. Unit: ms. */
  most = 0;

  /**
   * Onsets come in order.
   *
   * @param ms by how much the note of it was held back that was held back most
   */
  add(onset: number, ms: number): void {
    if (ms < least) return;
    if (this.count === 0) this.first = onset;
    this.count += 1;
    this.most = Math.max(this.most, ms);
  }
}

/** Where notes start after a step, in ticks, by row; and what it had to hold back. */
export interface Step {
  readonly starts: Float64Array;
  readonly held: Held;
}

const steps = {
  pull: { done: 'pulled', hint: 'a finer --grid, or a smaller --pull, leaves them room' },
  roll: { done: 'rolled', hint: 'a smaller --roll suits chords that follow each other so closely' },
  loosen: { done: 'loosened', hint: 'a smaller --loosen suits notes that follow each other so closely' },
} as const;

/** held-back: onsets that a step moved less than it was asked to, in one warning. */
export function heldBack(
  { line }: RetimedPart,
  step: keyof typeof steps,
  { count, first, most }: Held,
): readonly Diagnostic[] {
  if (count === 0) return [];
  const who = count === 1 ? 'an onset is' : `${count} onsets, this one first, are`;
  const { done, hint } = steps[step];
  return [
    diagnostic(
      'held-back',
      musicPlace(line, line.measures.onsetTick(first) ?? 0),
      `${who} ${done} by up to ${Math.round(most)} ms less than asked, so as to stay apart from the onsets beside`,
      hint,
    ),
  ];
}
