/** A filter of second order: y = b0·x + b1·x₋₁ + b2·x₋₂ − a1·y₋₁ − a2·y₋₂. */
export interface Biquad {
  readonly b: readonly [number, number, number];
  /** a1 and a2; a0 is 1. */
  readonly a: readonly [number, number];
}

/** Runs samples through a chain of filters; what it remembers goes on from one call to the next. */
export type Filter = (samples: ArrayLike<number>) => Float64Array;

/** A chain of filters at rest. */
export function filterOf(stages: readonly Biquad[]): Filter {
  const runs = stages.map(stageOf);
  return (samples) => {
    const out = new Float64Array(samples);
    for (const run of runs) run(out);
    return out;
  };
}

/** One stage, in place; transposed direct form II. */
function stageOf({ b: [b0, b1, b2], a: [a1, a2] }: Biquad): (samples: Float64Array) => void {
  let first = 0;
  let second = 0;
  return (samples) => {
    for (let index = 0; index < samples.length; index++) {
      const x = samples[index] ?? 0;
      const y = b0 * x + first;
      first = b1 * x - a1 * y + second;
      second = b2 * x - a2 * y;
      samples[index] = y;
    }
    // What is left after long silence would be denormal, which is slow.
    if (Math.abs(first) < 1e-30) first = 0;
    if (Math.abs(second) < 1e-30) second = 0;
  };
}

/**
 * A band-pass of gain 1 in its middle (R. Bristow-Johnson, cookbook formulae for audio EQ biquad filter coefficients,
 * from memory).
 *
 * @param frequency its middle, in Hz, below half of the rate
 * @param quality middle ÷ width
 */
export function bandPass(frequency: number, quality: number, sampleRate: number): Biquad {
  const angle = (2 * Math.PI * frequency) / sampleRate;
  const alpha = Math.sin(angle) / (2 * quality);
  const a0 = 1 + alpha;
  return { b: [alpha / a0, 0, -alpha / a0], a: [(-2 * Math.cos(angle)) / a0, (1 - alpha) / a0] };
}
