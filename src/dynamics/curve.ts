import { lastAtMost } from '../midi/index.js';

/** A place that a curve goes through. */
export interface Target {
  /** A tick, or any other measure that rises. */
  readonly at: number;
  /** On the scale of marks, or in controller steps. */
  readonly level: number;
}

/** A curve that rises, falls or stays from each knot to just before the next; it may jump at a knot. */
export interface Curve {
  /** Rising strictly. */
  readonly knots: readonly number[];
  /** Held before the first knot and after the last. At a jump it already has the value after it. */
  valueAt(at: number): number;
  /** The same, but at a jump the value before it. */
  valueBefore(at: number): number;
}

/** Cubic Hermite between two targets: values and slopes at both ends. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
  readonly startSlope: number;
  readonly endSlope: number;
}

/**
 * The monotone cubic curve through targets: Fritsch & Carlson (1980), Monotone piecewise cubic interpolation, SIAM J.
 * Numer. Anal. 17. Between two targets it never leaves their range; a target that is a peak or a valley is flat. Two
 * targets at one place are a jump, and the curve is smooth on either side of it (of more, the first and last count).
 *
 * @param targets their places never fall; at least one
 * @throws RangeError where there are none, or their places fall
 */
export function curveThrough(targets: readonly Target[]): Curve {
  const runs = runsBetweenJumps(targets);
  const pieces = runs.flatMap(piecesOf);
  const knots = pieces.map(({ from }) => from);
  const last = targets.at(-1);
  if (last && last.at !== knots.at(-1)) knots.push(last.at);
  const on = (index: number, at: number) => {
    const piece = pieces[Math.max(0, index)] ?? pieces.at(-1);
    return piece ? hermite(piece, at) : 0;
  };
  return {
    knots,
    valueAt: (at) => on(lastAtMost(knots, at), at),
    valueBefore(at) {
      const index = lastAtMost(knots, at);
      return on(knots[index] === at ? index - 1 : index, at);
    },
  };
}

function runsBetweenJumps(targets: readonly Target[]): readonly (readonly Target[])[] {
  const first = targets[0];
  if (!first) throw new RangeError('a curve needs at least one target');
  let run = [first];
  const runs = [run];
  let before = first;
  for (const target of targets.slice(1)) {
    if (!(target.at >= before.at)) {
      throw new RangeError(`a target at ${target.at} stands after one at ${before.at}`);
    }
    if (target.at > before.at) run.push(target);
    else {
      // a run of one target that is left at once was only passed through
      if (run.length === 1) runs.pop();
      run = [target];
      runs.push(run);
    }
    before = target;
  }
  return runs;
}

function piecesOf(run: readonly Target[]): readonly Piece[] {
  const only = run[0];
  if (only && run.length === 1) {
    const { at, level } = only;
    return [{ from: at, to: at, start: level, end: level, startSlope: 0, endSlope: 0 }];
  }
  const slopes = slopesOf(run);
  return run.slice(1).map((to, index) => {
    const from = run[index] ?? to;
    return {
      from: from.at,
      to: to.at,
      start: from.level,
      end: to.level,
      startSlope: slopes[index] ?? 0,
      endSlope: slopes[index + 1] ?? 0,
    };
  });
}

function slopesOf(run: readonly Target[]): readonly number[] {
  const secants = run.slice(1).map((to, index) => {
    const from = run[index] ?? to;
    return (to.level - from.level) / (to.at - from.at);
  });
  const slopes = run.map((_, index) => {
    const before = secants[index - 1] ?? secants[index] ?? 0;
    const after = secants[index] ?? before;
    return before * after > 0 ? (before + after) / 2 : 0;
  });
  secants.forEach((secant, index) => {
    if (secant === 0) return;
    const alpha = (slopes[index] ?? 0) / secant;
    const beta = (slopes[index + 1] ?? 0) / secant;
    // within the circle of radius 3 the piece is monotone
    const radius = Math.hypot(alpha, beta);
    if (radius <= 3) return;
    slopes[index] = (slopes[index] ?? 0) * (3 / radius);
    slopes[index + 1] = (slopes[index + 1] ?? 0) * (3 / radius);
  });
  return slopes;
}

function hermite(piece: Piece, at: number): number {
  const { from, to, start, end } = piece;
  if (at >= to) return end;
  if (at <= from) return start;
  const width = to - from;
  const t = (at - from) / width;
  const u = 1 - t;
  const rise = t * t * (3 - 2 * t);
  const value = start + (end - start) * rise + width * t * u * (piece.startSlope * u - piece.endSlope * t);
  return Math.max(Math.min(start, end), Math.min(Math.max(start, end), value));
}
