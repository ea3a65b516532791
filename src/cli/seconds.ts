/**
 * A duration in words, with two digits that count.
 *
 * @param ms in ms
 */
export function secondsText(ms: number): string {
  if (ms < 1000) return `${Math.round(ms)} ms`;
  return `${(ms / 1000).toFixed(ms < 10_000 ? 1 : 0)} s`;
}
