import { compile as compileSong, withStored } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { type Report, report } from '../report/index.js';
import { type MusicOptions, readMusic } from './music.js';

export interface CompileOptions extends MusicOptions {
  /** Leave out of the file what it was compiled with, which it carries where there is `timing`. */
  readonly bare?: boolean;
}

/** A compiled recording. */
export interface CompileResult {
  /** The finished Standard MIDI File; undefined where an error makes it impossible. */
  readonly bytes: Uint8Array | undefined;
  /** What was decided, note by note, part by part. */
  readonly notes: Report['parts'];
  /** Everything that is wrong; errors among it are the reason why there are no bytes. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads a recording and writes it with the right switch before each note. Never throws for what is in the recording or
 * in a map.
 *
 * @param midi a Standard MIDI File, or a score in MusicXML or MEI
 */
export function compile(midi: Uint8Array, options: CompileOptions): CompileResult {
  const { value: music, diagnostics: found } = readMusic(midi, options);
  if (!music) return { bytes: undefined, notes: [], diagnostics: found };
  const song = options.bare ? music.song : withStored(music.song, music.jobs);
  const { value: compiled, diagnostics } = compileSong(song, music.jobs);
  return {
    bytes: compiled?.bytes,
    notes: compiled ? report(music.song.file, compiled.parts).parts : [],
    diagnostics: [...found, ...diagnostics],
  };
}
