// Ticks as time and as bars.
import type { Song, Track } from '../song.js';
import { barLines } from './bars.js';
import type { Clock } from './clock.js';
import { lastOfEachTick, signatureAt, tempoAt } from './events.js';
import { smpteClock } from './smpte.js';
import { tempoMap } from './tempo.js';

export { type Bar, barFinder } from './bar-finder.js';
export { beatAt, type Position } from './beat.js';
export type { Clock } from './clock.js';
export { lastOfEachTick, signatureAt, tempoAt } from './events.js';

/** One clock serves all tracks of a song; it is made when it is first asked for. */
const common = new WeakMap<Song, Clock>();

/**
 * The clock of a track. In formats 0 and 1 the tempos and time signatures of all tracks hold for every track; in
 * format 2 each track is a piece of its own, and only its own count.
 *
 * @param trackNumber counted from 1 in file order
 */
export function clockOf(song: Song, trackNumber: number): Clock {
  const { division } = song;
  if (division.kind === 'smpte') return smpteClock(division);
  if (song.format === 2) return musicalClock(song.tracks.slice(trackNumber - 1, trackNumber), division.ppq);
  const known = common.get(song);
  if (known) return known;
  const clock = musicalClock(song.tracks, division.ppq);
  common.set(song, clock);
  return clock;
}

/** The real time of many ticks in milliseconds; quickest where they come in order. */
export function timesOf(clock: Clock, ticks: ArrayLike<number>): Float64Array {
  const times = new Float64Array(ticks.length);
  for (let at = 0; at < times.length; at++) times[at] = clock.ms(ticks[at] ?? 0);
  return times;
}

function musicalClock(tracks: readonly Track[], ppq: number): Clock {
  const tempos = fromStart(500_000, lastOfEachTick(tracks, tempoAt));
  const signatures = fromStart({ numerator: 4, denominator: 4 }, lastOfEachTick(tracks, signatureAt));
  const ticksPerWhole = 4 * ppq;
  const columns = {
    ticks: Float64Array.from(tempos, ([tick]) => tick),
    microseconds: Float64Array.from(tempos, ([, value]) => value),
  };
  return {
    ticksPerWhole,
    ...tempoMap(columns, ppq),
    ...barLines(
      signatures.map(([ticks, signature]) => ({ ticks, ...signature })),
      ticksPerWhole,
    ),
  };
}

/** What holds from tick 0 on, unless something is set there. */
function fromStart<T>(
  initial: T,
  set: readonly (readonly [tick: number, value: T])[],
): readonly (readonly [tick: number, value: T])[] {
  return set[0]?.[0] === 0 ? set : [[0, initial], ...set];
}
