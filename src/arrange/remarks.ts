import { type Diagnostic, diagnostic, type Place } from '../diagnostics/index.js';
import { clockOf, musicPlace, type Song } from '../midi/index.js';
import { firstSounding } from './midi.js';
import type { ArrangeRemark } from './types.js';

/** The files that remarks are about. */
export interface Files {
  /** The music by whose ticks they are placed. */
  readonly song: Song;
  /** The file of the text with chord symbols, or of the parts; the music's own where there is none. */
  readonly text?: string;
}

/** What is wrong with the parts that chords are laid out for, as a whole. */
const ofParts: ReadonlySet<string> = new Set(['no-parts', 'unknown-part']);

/** Remarks as they are told of any file. */
export function diagnosticsOf(remarks: readonly ArrangeRemark[], files: Files): readonly Diagnostic[] {
  return remarks.map((remark) => {
    const { code, message, hint } = remark;
    return diagnostic(code, placeOf(remark, files), message, hint);
  });
}

function placeOf({ code, place }: ArrangeRemark, { song, text = song.file }: Files): Place {
  if (place?.kind === 'text') return { ...place, file: text };
  if (place?.kind === 'part' || ofParts.has(code)) return { kind: 'file', file: text };
  const track = firstSounding(song);
  if (place?.kind !== 'music' || !track) return { kind: 'file', file: song.file };
  const part = { track: track.number, trackName: track.name };
  return musicPlace({ file: song.file, part, clock: clockOf(song, track.number) }, place.tick);
}
