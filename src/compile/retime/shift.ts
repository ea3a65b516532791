import {
  arranged,
  clockOf,
  type MidiEvent,
  type Song,
  type Track,
  ticksUpTo,
  trackOf,
} from '../../midi/index.js';

/** What stands at the very beginning and moves with the music; everything else there sets things up, and stays. */
const music = new Set<MidiEvent['type']>(['noteOn', 'noteOff', 'text', 'lyrics', 'marker', 'cuePoint']);

/**
 * Puts bars of the first time signature before the music: every event of every track moves, tempo and markers
 * included. What sets things up at tick 0 (tempo, signatures, names, programs, controllers) stays there, and so holds
 * in the new bars too.
 *
 * @returns undefined where the file has no bars
 */
export function withPreroll(song: Song, bars: number): Song | undefined {
  const tracks: Track[] = [];
  for (const track of song.tracks) {
    const start = clockOf(song, track.number).barStart(bars + 1);
    if (start === null) return undefined;
    tracks.push(shifted(track, start));
  }
  return { ...song, tracks };
}

function shifted(track: Track, by: number): Track {
  const isSetup = (event: MidiEvent, index: number) => track.ticks[index] === 0 && !music.has(event.type);
  const moved = track.events.map((event, index) => {
    const tick = track.ticks[index] ?? 0;
    return { index, tick: isSetup(event, index) ? tick : tick + by };
  });
  const inOrder = moved.sort((a, b) => a.tick - b.tick);
  const ticks = ticksUpTo(inOrder.at(-1)?.tick ?? 0, inOrder.length);
  inOrder.forEach(({ tick }, index) => {
    ticks[index] = tick;
  });
  const order = inOrder.map(({ index }) => index);
  return trackOf(track.number, track.name, arranged(track.columns, order, ticks));
}
