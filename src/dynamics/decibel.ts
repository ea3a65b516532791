const highest = 127;

/**
 * The level of a channel by its volume (controller 7) and expression (controller 11): L = 40 · log10(cc7 · cc11 / 127²),
 * the law that the General MIDI level 1 developer guidelines recommend and that DLS has. 127 and 127 are 0 dB; where
 * either is 0 there is silence.
 *
 * @returns dB; −Infinity for silence
 */
export function decibels(volume: number, expression: number = highest): number {
  return 40 * Math.log10((volume * expression) / (highest * highest));
}

/** A controller value for a wanted level. */
export interface Fader {
  /** The whole value, 0–127, nearest to the level. */
  readonly value: number;
  /** The level that it gives. Unit: dB. */
  readonly got: number;
  /** How much louder it could still become: 127 less the wanted level. Negative where the level is out of reach. Unit: dB. */
  readonly headroom: number;
}

/**
 * The value of one controller (volume or expression) that gives a level, the other one being where it is.
 *
 * @param level in dB; −Infinity asks for silence
 * @param other the value of the other controller; at 0 nothing is heard whatever this one is
 */
export function faderFor(level: number, other: number = highest): Fader {
  const headroom = decibels(highest, other) - level;
  if (level === Number.NEGATIVE_INFINITY) return { value: 0, got: level, headroom: Number.POSITIVE_INFINITY };
  const exact = (10 ** (level / 40) * highest * highest) / other;
  const value = Math.max(1, Math.min(highest, nearest(exact)));
  return { value, got: decibels(value, other), headroom };
}

/**
 * A controller value made louder or softer. Each value of a recorded curve may be shifted by itself: its form in dB
 * stays. 0 stays silent.
 *
 * @param by in dB
 */
export function shifted(value: number, by: number): Fader {
  return faderFor(decibels(value) + by);
}

/** The whole value whose level is nearest, which is the nearest in proportion. */
function nearest(exact: number): number {
  const below = Math.floor(exact);
  return exact * exact < below * (below + 1) ? below : below + 1;
}
