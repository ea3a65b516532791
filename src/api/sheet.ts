import { compileParts } from '../compile/index.js';
import { type Diagnostic, isError } from '../diagnostics/index.js';
import { type MusicOptions, readMusic } from './music.js';

export interface SheetOptions extends MusicOptions {
  readonly title?: string;
  /** Whether parts that rest all through a system have a staff in it, too. */
  readonly resting?: boolean;
}

export interface SheetResult {
  /** The page; undefined where an error makes it impossible. */
  readonly html: string | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Writes what is decided for a recording as one HTML page that needs nothing else. The engraver is read when this is
 * first called.
 */
export async function sheet(midi: Uint8Array, options: SheetOptions): Promise<SheetResult> {
  const { value: music, diagnostics: found } = readMusic(midi, options);
  if (!music) return { html: undefined, diagnostics: found };
  const { song, jobs } = music;
  const { parts, tracks, diagnostics: ofParts } = compileParts(song, jobs);
  const { drawSheet, noSheet } = await import('../sheet/index.js');
  const named = parts.map((compiled) => ({
    compiled,
    name: compiled.part.trackName === '' ? `Track ${compiled.part.track}` : compiled.part.trackName,
  }));
  const task = {
    title: options.title ?? options.name ?? 'Untitled',
    song,
    tracks,
    jobs: named,
    diagnostics: [...found, ...ofParts],
    ...(options.resting ? { resting: true } : {}),
  };
  const diagnostics = [...task.diagnostics, ...noSheet(task)];
  if (diagnostics.some(isError)) return { html: undefined, diagnostics };
  const { content, diagnostics: ofSheet } = await drawSheet(task);
  const isDrawn = !ofSheet.some(isError);
  return { html: isDrawn ? content : undefined, diagnostics: [...diagnostics, ...ofSheet] };
}
