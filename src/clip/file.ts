import { type Diagnostic, diagnostic, type Outcome } from '../diagnostics/index.js';
import type { Song } from '../midi/index.js';
import { clipOfSong, type SoundingPart } from './from-song.js';
import type { ClipRemark } from './types.js';
import { writeClip } from './write.js';

/** A song's parts as the bytes of a MIDI clip file, with what of the song is not in it; see `clipOfSong`, `writeClip`. */
export function clipFile(song: Song, parts: readonly SoundingPart[]): Outcome<Uint8Array> {
  const told = ({ code, message, hint }: ClipRemark): Diagnostic =>
    diagnostic(code, { kind: 'file', file: song.file }, message, hint);
  const { clip, diagnostics: found } = clipOfSong(song, parts);
  const written = clip ? writeClip(clip) : { bytes: undefined, diagnostics: [] };
  return { value: written.bytes, diagnostics: [...found, ...written.diagnostics].map(told) };
}
