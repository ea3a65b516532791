import { channelOf, isNoteOn } from '../events/index.js';
import type { Part } from '../line.js';
import type { Track } from '../song.js';

/** The parts of a track: one for each channel on which it has notes, by channel. */
export function partsOf({ columns, number, name }: Track): readonly Part[] {
  let found = 0;
  for (let event = 0; event < columns.length; event++)
    if (isNoteOn(columns, event)) found |= 1 << channelOf(columns, event);
  return Array.from({ length: 16 }, (_, channel) => channel)
    .filter((channel) => found & (1 << channel))
    .map((channel) => ({ track: number, trackName: name, channel }));
}
