import type { PairedNote } from '../line.js';
import type { Track } from '../song.js';
import { noteAt } from './notes.js';
import { pairNotes } from './pair.js';

/** TO BE DELETED when the last stage reads columns: paired notes as objects. */
export interface Pairing {
  /** In file order of the note-ons. */
  readonly notes: readonly PairedNote[];
  /** Indices of note-offs that had no open note. */
  readonly strayOffs: readonly number[];
}

/** TO BE DELETED when the last stage reads columns: the notes of `pairNotes` as objects. */
export function pairedNotes(track: Track, channel: number): Pairing {
  const { notes, strayOffs } = pairNotes(track.columns, channel);
  return { notes: Array.from({ length: notes.length }, (_, note) => noteAt(notes, note)), strayOffs };
}
