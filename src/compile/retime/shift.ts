import {
  arranged,
  clockOf,
  type Events,
  kindOf,
  lastTick,
  metaType,
  type Song,
  type Track,
  tickOf,
  ticksUpTo,
  trackOf,
  wordTypes,
} from '../../midi/index.js';

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

function shifted({ number, name, columns }: Track, by: number): Track {
  const { length } = columns;
  const moved = ticksUpTo(lastTick(columns) + by, length);
  for (let event = 0; event < length; event++)
    moved[event] = tickOf(columns, event) + (isSetup(columns, event) ? 0 : by);
  const order = Uint32Array.from(moved.keys()).sort((a, b) => (moved[a] ?? 0) - (moved[b] ?? 0) || a - b);
  const ticks = ticksUpTo(lastTick(columns) + by, length);
  order.forEach((event, at) => {
    ticks[at] = moved[event] ?? 0;
  });
  return trackOf(number, name, arranged(columns, order, ticks));
}

/** Notes and texts at the very beginning move with the music; everything else there sets things up, and stays. */
function isSetup(columns: Events, event: number): boolean {
  const kind = kindOf(columns, event);
  return (
    tickOf(columns, event) === 0 && kind !== 0x80 && kind !== 0x90 && !wordTypes.has(metaType(columns, event))
  );
}
