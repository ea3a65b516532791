/** One bar as it is heard. Unit: ms from the beginning of the sound. */
export interface BarTimes {
  /** As it is printed. */
  readonly bar: number;
  readonly fromMs: number;
  readonly toMs: number;
}

/** What a page tells its player. Times count from the beginning of the sound, rising. */
export interface PlayerData {
  readonly bars: readonly BarTimes[];
  /** For each part, for each of its notes in the order of the page: when it is heard, and the index of its bar. */
  readonly notes: readonly (readonly (readonly [ms: number, bar: number])[])[];
}

/** The index of the bar that sounds at a time: the last one that has begun; the first before that. */
export function barAt(bars: readonly BarTimes[], ms: number): number {
  let first = 0;
  let behind = bars.length;
  while (first < behind) {
    const middle = (first + behind) >>> 1;
    if ((bars[middle]?.fromMs ?? 0) <= ms) first = middle + 1;
    else behind = middle;
  }
  return Math.max(0, first - 1);
}

/** A place for people: the bar, and minutes and seconds. */
export function placeText(bars: readonly BarTimes[], ms: number): string {
  const whole = Math.max(0, Math.floor(ms / 1000));
  const time = `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
  const bar = bars[barAt(bars, ms)];
  return bar ? `bar ${bar.bar}, ${time}` : time;
}
