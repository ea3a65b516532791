/** A line in a bar, as far as a tune is concerned. */
export interface LineBar {
  /** How many of its onsets have another pitch than the one before. */
  readonly moves: number;
  /** The mean of its highest notes, as MIDI notes. */
  readonly height: number;
}

/** Own figures, no source. */
export const tuneWeights = {
  /** A line that moves more often in a bar is figuration, not more of a tune. */
  mostMoves: 8,
  /** What an octave of height is worth, in doublings of moves. */
  octave: 0.75,
  /** What it costs to hand the tune over; rests are free. */
  change: 1,
} as const;

/**
 * Who has the tune in each bar: the most moving upper line, by the cheapest path over the bars, so that it is handed over
 * only where that says more than it costs. Quadratic in lines, linear in bars.
 *
 * @param bars the lines of each bar; undefined for those that rest
 * @returns the index of a line for each bar; undefined where all rest
 */
export function tuneByBar(
  bars: readonly (readonly (LineBar | undefined)[])[],
): readonly (number | undefined)[] {
  const steps: { readonly worth: number; readonly from: number }[][] = [];
  let before: readonly number[] = [];
  for (const lines of bars) {
    const lowest = lines.reduce((least, line) => Math.min(least, line?.height ?? least), Infinity);
    const step = lines.map((line, index) => {
      const best = before.reduce((most, worth, other) => {
        return arriving(worth, other, index) > arriving(before[most] ?? 0, most, index) ? other : most;
      }, 0);
      const come = before.length === 0 ? 0 : arriving(before[best] ?? 0, best, index);
      return { worth: come + (line ? worthOf(line, lowest) : -tuneWeights.change), from: best };
    });
    steps.push(step);
    before = step.map(({ worth }) => worth);
  }
  let at = before.indexOf(Math.max(...before));
  const found: (number | undefined)[] = [];
  for (let bar = steps.length - 1; bar >= 0; bar -= 1) {
    const rests = bars[bar]?.[at] === undefined;
    found.push(rests ? undefined : at);
    at = steps[bar]?.[at]?.from ?? 0;
  }
  return found.reverse().map((line, bar) => line ?? highest(bars[bar] ?? []));
}

function arriving(worth: number, from: number, to: number): number {
  return worth - (from === to ? 0 : tuneWeights.change);
}

function worthOf({ moves, height }: LineBar, lowest: number): number {
  const { mostMoves, octave } = tuneWeights;
  return Math.log2(1 + Math.min(mostMoves, moves)) + (octave * (height - lowest)) / 12;
}

function highest(lines: readonly (LineBar | undefined)[]): number | undefined {
  let found: number | undefined;
  lines.forEach((line, index) => {
    if (line && (found === undefined || line.height > (lines[found]?.height ?? 0))) found = index;
  });
  return found;
}
