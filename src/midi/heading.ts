import { escapeText } from '../diagnostics/index.js';
import type { Part } from './line.js';

/** A part at the head of what is said of it: `Track 2 "Horns", channel 1`; without the name where the track has none. */
export function partHeading(part: Part): string {
  return `Track ${numbered(part)}`;
}

/** The same within a sentence: `track 2 "Horns", channel 1`. */
export function partInText(part: Part): string {
  return `track ${numbered(part)}`;
}

function numbered({ track, trackName, channel }: Part): string {
  const name = trackName === '' ? '' : ` "${escapeText(trackName)}"`;
  return `${track}${name}, channel ${channel + 1}`;
}
