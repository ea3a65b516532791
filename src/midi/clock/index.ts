// Ticks as time and as bars.
import tonejs from '@tonejs/midi';
import type { MidiData } from 'midi-file';
import type { MidiEvent, Song, Track } from '../song.js';
import { barLines } from './bars.js';
import type { Clock } from './clock.js';
import { signatureOf, tempoOf } from './events.js';
import { smpteClock } from './smpte.js';
import { tempoMap } from './tempo.js';

export type { Clock } from './clock.js';
export { signatureOf, tempoOf } from './events.js';

const { Header } = tonejs;

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

type TimedEvent = MidiEvent & { readonly absoluteTime: number };

function musicalClock(tracks: readonly Track[], ppq: number): Clock {
  const tempos = lastOfEachTick(tracks, 500_000, tempoOf).map(
    ([absoluteTime, microsecondsPerBeat]): TimedEvent => {
      return { absoluteTime, deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat };
    },
  );
  const common = { numerator: 4, denominator: 4 };
  const signatures = lastOfEachTick(tracks, common, signatureOf).map(
    ([absoluteTime, signature]): TimedEvent => {
      const metronome = { metronome: 24, thirtyseconds: 8 };
      return { absoluteTime, deltaTime: 0, meta: true, type: 'timeSignature', ...signature, ...metronome };
    },
  );
  const data: MidiData = {
    header: { format: 0, numTracks: 1, ticksPerBeat: ppq },
    tracks: [[...tempos, ...signatures]],
  };
  const header = new Header(data);
  const changes = header.tempos.map(({ ticks, bpm, time = 0 }) => ({ ticks, bpm, time }));
  const ticksPerWhole = 4 * ppq;
  return {
    ticksPerWhole,
    ...tempoMap(changes, ppq),
    ...barLines(
      header.timeSignatures.flatMap(({ ticks, timeSignature: [numerator, denominator] }) =>
        numerator === undefined || denominator === undefined ? [] : [{ ticks, numerator, denominator }],
      ),
      ticksPerWhole,
    ),
  };
}

/** What events set, in order of tick; of several on one tick the last holds. `initial` holds from tick 0. */
function lastOfEachTick<T>(
  tracks: readonly Track[],
  initial: T,
  read: (event: MidiEvent) => T | undefined,
): readonly (readonly [tick: number, value: T])[] {
  const found = new Map<number, T>([[0, initial]]);
  for (const { events, ticks } of tracks)
    events.forEach((event, index) => {
      const value = read(event);
      if (value !== undefined) found.set(ticks[index] ?? 0, value);
    });
  return [...found].sort(([a], [b]) => a - b);
}
