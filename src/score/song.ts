import { type Outcome, withErrors } from '../diagnostics/index.js';
import { readMidi, type Song } from '../midi/index.js';
import { isZip } from './container/zip.js';
import { songOf, type WrittenSong } from './ornamented.js';
import { playScore } from './performed.js';

/** How much of a recording or a score is read before it is refused. */
export interface MusicLimits {
  /** 64 MiB where it is not given. */
  readonly maxBytes?: number;
  /** Events of all tracks together, those that a score is played with among them; 4,000,000 where it is not given. */
  readonly maxEvents?: number;
}

/** What may stand before a text: byte order marks, and white space. */
const blank = new Set([0xef, 0xbb, 0xbf, 0xfe, 0xff, 0x00, 0x20, 0x09, 0x0a, 0x0d]);

/** Whether bytes are those of a written score, by their content: an archive, or a text that begins with an element. */
export function isScore(bytes: Uint8Array): boolean {
  if (isZip(bytes)) return true;
  const first = bytes.subarray(0, 64).find((byte) => !blank.has(byte));
  return first === 0x3c;
}

/**
 * Reads music: a Standard MIDI File, or a score in MusicXML (plain or compressed) or MEI, whichever it is by its
 * content. A score becomes the song that it is played as, with its marks as texts.
 *
 * @param file the file's name, for messages
 */
export function readSong(bytes: Uint8Array, file: string, limits: MusicLimits = {}): Outcome<Song> {
  if (!isScore(bytes)) return readMidi(bytes, file, limits);
  const { maxBytes, maxEvents } = limits;
  const { performance, diagnostics: ofScore } = playScore(
    bytes,
    file,
    {},
    maxBytes === undefined ? {} : { maxBytes },
  );
  if (!performance) return { value: undefined, diagnostics: ofScore };
  const { value: song, diagnostics } = songOf(performance, file, maxEvents);
  const written: WrittenSong | undefined = song && { ...song, performance };
  return withErrors(written, [...ofScore, ...diagnostics]);
}
