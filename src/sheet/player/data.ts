import { lastAtMost, lastWithin } from '../../midi/index.js';

/** One bar as it is heard. Unit: ms from the beginning of the sound; beats that began before it are negative. */
export interface BarTimes {
  /** As it is printed. */
  readonly bar: number;
  /** When each of its beats begins. */
  readonly beats: readonly number[];
  readonly toMs: number;
}

/** When a note is heard, and the index of its bar; −1 where that is not in the sound. */
export type HeardNote = readonly [ms: number, bar: number];

/** What a page tells its player. Times count from the beginning of the sound. Unit: ms. */
export interface PlayerData {
  readonly lengthMs: number;
  /** Rising; none where the music has none. */
  readonly bars: readonly BarTimes[];
  /** For each part, for each of its notes in the order of the page: when it is heard, and the index of its written bar. */
  readonly notes: readonly (readonly HeardNote[])[];
}

/** When a bar begins. */
export function beginOf({ beats, toMs }: BarTimes): number {
  return beats[0] ?? toMs;
}

/** The index of the bar that sounds at a time: the last one that has begun; the first before that. */
export function barAt(bars: readonly BarTimes[], ms: number): number {
  return Math.max(
    0,
    lastWithin(bars.length, (index) => beginOf(bars[index] as BarTimes), ms),
  );
}

/** A place for people: bar and beat, and minutes and seconds. */
export function placeText(bars: readonly BarTimes[], ms: number): string {
  const whole = Math.max(0, Math.floor(ms / 1000));
  const time = `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
  const bar = bars[barAt(bars, ms)];
  if (!bar) return time;
  const { beats } = bar;
  const beat = Math.max(0, lastAtMost(beats, ms));
  return `bar ${bar.bar}, beat ${beat + 1}, ${time}`;
}
