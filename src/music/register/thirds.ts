import type { PitchRange } from '../instruments/index.js';
import type { Third } from './types.js';

const names: readonly [Third, Third, Third] = ['dark', 'middle', 'bright'];

/**
 * The third of a range in which a pitch lies, by semitones: of 36 pitches 12 are dark, 12 middle and 12 bright; one
 * over goes to the dark third, two over to the dark and the middle. What lies below the range is dark, above it bright.
 */
export function thirdOf(pitch: number, { low, high }: PitchRange): Third {
  const share = (pitch - low) / (high - low + 1);
  return names[share < 1 / 3 ? 0 : share < 2 / 3 ? 1 : 2];
}

/** The pitches of one third of a range, from the lowest to the highest. */
export function pitchesOfThird(third: Third, { low, high }: PitchRange): PitchRange {
  const count = high - low + 1;
  const index = names.indexOf(third);
  return {
    low: low + Math.ceil((index * count) / 3),
    high: low + Math.ceil(((index + 1) * count) / 3) - 1,
  };
}

/** The share of their sounding time that notes spend in each third; 0 each where nothing lasts. */
export function sharesOfThirds(
  notes: readonly { readonly pitch: number; readonly length: number }[],
  range: PitchRange,
): Readonly<Record<Third, number>> {
  const sums = { dark: 0, middle: 0, bright: 0 };
  let whole = 0;
  for (const { pitch, length } of notes) {
    sums[thirdOf(pitch, range)] += length;
    whole += length;
  }
  const share = (sum: number) => (whole > 0 ? sum / whole : 0);
  return { dark: share(sums.dark), middle: share(sums.middle), bright: share(sums.bright) };
}
