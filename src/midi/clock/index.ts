// Ticks as time and as bars.
import { type Events, nextMeta, tickOf } from '../events/index.js';
import type { Song, Track } from '../song.js';
import { barLines } from './bars.js';
import type { Clock } from './clock.js';
import { signatureAt, tempoAt } from './events.js';
import { smpteClock } from './smpte.js';
import { tempoMap } from './tempo.js';

export { beatAt, type Position } from './beat.js';
export type { Clock } from './clock.js';
export { signatureAt, tempoAt } from './events.js';

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
  const tempos = lastOfEachTick(tracks, 500_000, tempoAt);
  const signatures = lastOfEachTick(tracks, { numerator: 4, denominator: 4 }, signatureAt);
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

/** What events set, in order of tick; of several on one tick the last holds. `initial` holds from tick 0. */
function lastOfEachTick<T>(
  tracks: readonly Track[],
  initial: T,
  read: (events: Events, event: number) => T | undefined,
): readonly (readonly [tick: number, value: T])[] {
  const found = new Map<number, T>([[0, initial]]);
  for (const { columns } of tracks)
    for (let event = nextMeta(columns, 0); event >= 0; event = nextMeta(columns, event + 1)) {
      const value = read(columns, event);
      if (value !== undefined) found.set(tickOf(columns, event), value);
    }
  return [...found].sort(([a], [b]) => a - b);
}
