import type { Song } from '../../../src/midi/song.js';
import { writeMidi } from '../../../src/midi/write/index.js';

/** What a song is written as; no error may stand in the way. */
export function written(song: Song, changed: Parameters<typeof writeMidi>[1] = new Map()): Uint8Array {
  const { value, diagnostics } = writeMidi(song, changed);
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}
