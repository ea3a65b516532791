import type { GridModel } from './types.js';

/**
 * The costs that `findGrid` uses unless it is given others. They are log-likelihoods, so that an onset which lies
 * one standard deviation nearer to a finer grid's place (½ nat) is weighed against what that grid costs: halves,
 * thirds and quarters of a beat are near to free, sixths and eighths need several onsets to speak for
 * them, and a beat rather stays with the subdivision before it.
 *
 * Own figures, no source: chosen on generated performances of jitter ±5 to ±25 ms, and shown on others that were
 * held back while choosing. The jitter is wider than that of an even player (±15 ms has a standard deviation of
 * 8.7 ms), so that an uneven one is not read as many small notes.
 */
export const gridModel: GridModel = {
  jitterMs: 12,
  parts: new Map([
    [1, 0],
    [2, 0.25],
    [3, 0.5],
    [4, 0.5],
    [6, 2.5],
    [8, 7],
  ]),
  finer: 10,
  change: 1,
};
