/** A length of time in words: "25 ms", "1.2 s". */
export function formatMs(ms: number): string {
  return ms < 1000 ? `${Math.round(ms * 10) / 10} ms` : `${Math.round(ms / 100) / 10} s`;
}
