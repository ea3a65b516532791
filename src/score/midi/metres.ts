import type { Performance } from '../play/index.js';

export interface TimeSignature {
  readonly tick: number;
  readonly numerator: number;
  readonly denominator: number;
}

/** The shortest note that a bar's length is counted in where its metre does not fit it. */
const finest = 64;

/**
 * Time signatures under which a MIDI file's bars are the bars as played. A bar that is shorter or longer than its metre
 * (an upbeat, a bar cut by a repeat) has one of its own. Bars that no signature fits are left to the one before.
 */
export function timeSignatures({ bars, ppq }: Performance): readonly TimeSignature[] {
  const all: TimeSignature[] = [];
  for (const { tick, length, metre } of bars) {
    const fitting = signatureOf(length, metre ?? { beats: 4, beatType: 4 }, ppq);
    const last = all.at(-1);
    const isSame =
      last && fitting && last.numerator === fitting.numerator && last.denominator === fitting.denominator;
    if (fitting && !isSame) all.push({ tick, ...fitting });
  }
  return all;
}

function signatureOf(length: number, { beats, beatType }: { beats: number; beatType: number }, ppq: number) {
  for (let denominator = beatType; denominator <= Math.max(finest, beatType); denominator *= 2) {
    const numerator = (length * denominator) / (4 * ppq);
    if (Number.isInteger(numerator) && numerator >= 1 && numerator <= 255)
      return numerator * beatType === beats * denominator
        ? { numerator: beats, denominator: beatType }
        : { numerator, denominator };
  }
  return undefined;
}
