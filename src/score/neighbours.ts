/** A written pitch: its step counted from C, 0–6. */
export interface Spelled {
  readonly step: number;
  readonly octave: number;
  readonly alter: number;
}

/** Semitones to the steps around a pitch. */
export interface Neighbours {
  readonly upper: number;
  readonly lower: number;
  /** The second step below. */
  readonly third: number;
}

const naturals = [0, 2, 4, 5, 7, 9, 11];
/** Steps in the order in which key signatures sharpen them: F C G D A E B. */
const sharpened = [3, 0, 4, 1, 5, 2, 6];

/** How a key signature alters a step; sharps count above 0, flats below. */
export function keyAlter(fifths: number, step: number): number {
  const place = sharpened.indexOf(step);
  const ofSharps = Math.floor((fifths - place + 6) / 7);
  return Math.max(-2, Math.min(2, ofSharps));
}

/** The steps around a pitch as key and accidentals have them; of a pitch without a step, whole tones. */
export function neighboursOf(
  pitch: Spelled | undefined,
  alterOf: (step: number, octave: number) => number,
): Neighbours {
  if (!pitch) return { upper: 2, lower: 2, third: 4 };
  const own = height(pitch);
  const distance = (steps: number) => {
    const at = pitch.step + steps;
    const octave = pitch.octave + Math.floor(at / 7);
    const step = ((at % 7) + 7) % 7;
    return Math.round(Math.abs(height({ step, octave, alter: alterOf(step, octave) }) - own));
  };
  const next = (steps: number) => Math.max(1, Math.min(3, distance(steps)));
  return { upper: next(1), lower: next(-1), third: Math.max(2, Math.min(5, distance(-2))) };
}

/** The same where accidentals stand with a sign, for the note above or the one below. */
export function inflected(
  plain: Neighbours,
  pitch: Spelled | undefined,
  upper: number | undefined,
  lower: number | undefined,
): Neighbours {
  return {
    ...plain,
    ...(upper === undefined ? {} : { upper: neighboursOf(pitch, () => upper).upper }),
    ...(lower === undefined ? {} : { lower: neighboursOf(pitch, () => lower).lower }),
  };
}

function height({ step, octave, alter }: Spelled): number {
  return 12 * octave + (naturals[step] ?? 0) + alter;
}
