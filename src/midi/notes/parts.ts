import type { Part } from '../line.js';
import type { Track } from '../song.js';

/** The parts of a track: one for each channel on which it has notes, by channel. */
export function partsOf(track: Track): readonly Part[] {
  const channels = new Set<number>();
  for (const event of track.events) if (event.type === 'noteOn') channels.add(event.channel);
  return [...channels]
    .sort((a, b) => a - b)
    .map((channel) => ({ track: track.number, trackName: track.name, channel }));
}
