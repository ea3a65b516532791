import { type Diagnostic, isError } from '../diagnostics/index.js';
import { clockOf, noteAt, pairNotes, partsOf, type Song, writeMidi } from '../midi/index.js';
import { type SoundingNote, soundingNotes } from '../music/index.js';
import { type ArrangedTrack, arrangedSong, tracksTogether } from './midi.js';
import { diagnosticsOf, type Files } from './remarks.js';
import { type SetOptions, setChords } from './set.js';
import { voiceSketch } from './sketch.js';
import { chordsOfSketch } from './slices.js';
import { strokesOf } from './strokes.js';
import { chordsOfSymbols } from './symbols.js';
import type { ArrangeRemark, Chord } from './types.js';
import type { VoiceOptions, VoicePart } from './voice/index.js';

/** Chord symbols in a text, and its file's name for messages. */
export interface SymbolsText {
  readonly file: string;
  readonly symbols: string;
}

/** A new file; no bytes where there is an error. */
export interface Arranged {
  readonly bytes: Uint8Array | undefined;
  readonly diagnostics: readonly Diagnostic[];
  /** How many strokes were set; 0 where chords were laid out. */
  readonly strokes: number;
  /** By the names of its tracks, how many notes each has. */
  readonly tracks: readonly { readonly name: string; readonly notes: number }[];
}

/**
 * Sets chords to a recorded rhythm (see `setChords`): a new file in the rhythm's time, with a track for each part of the
 * sketch, or one named "Chords" for symbols. All notes of the rhythm count, whatever their keys and channels are; of the
 * sketch, those with a pitch. A sketch is laid over the rhythm by its beats, not by its tempo.
 */
export function setSong(rhythm: Song, chords: Song | SymbolsText, options: SetOptions = {}): Arranged {
  const clock = clockOf(rhythm, 1);
  const read =
    'symbols' in chords
      ? { ...chordsOfSymbols(chords.symbols, clock), names: ['Chords'] }
      : { ...chordsIn(chords, rhythm), remarks: [] };
  const files = { song: rhythm, text: chords.file };
  if (read.remarks.length > 0) return arranged(files, [], 0, read.remarks);
  const strokes = strokesOf(allNotes(rhythm), clock);
  const { notes, remarks } = setChords(strokes, read.chords, clock, options);
  const tracks = read.names.map((name, part) => ({
    name,
    notes: notes.filter((note) => note.part === part),
  }));
  return arranged(files, tracks, strokes.length, remarks);
}

/**
 * Lays the chords of a sketch out for parts (see `voiceSketch`): a new file in the sketch's time, with a track for each
 * part. The sketch is not changed.
 *
 * @param partsFile the file that names the parts, for messages
 */
export function voiceSong(
  sketch: Song,
  parts: readonly VoicePart[],
  options: VoiceOptions,
  partsFile: string,
): Arranged {
  const { notes } = pitchedNotes(sketch);
  const { parts: voiced, remarks } = voiceSketch(notes, clockOf(sketch, 1), parts, options);
  return arranged({ song: sketch, text: partsFile }, voiced, 0, remarks);
}

function arranged(
  files: Files,
  tracks: readonly ArrangedTrack[],
  strokes: number,
  remarks: readonly ArrangeRemark[],
): Arranged {
  const found = diagnosticsOf(remarks, files);
  const counted = tracks.map(({ name, notes }) => ({ name, notes: notes.length }));
  if (found.some(isError)) return { bytes: undefined, diagnostics: found, strokes: 0, tracks: [] };
  const { value, diagnostics } = writeMidi(arrangedSong(files.song.file, files.song, tracks), new Map());
  return { bytes: value, diagnostics: [...found, ...diagnostics], strokes, tracks: counted };
}

function allNotes(song: Song) {
  return tracksTogether(song).flatMap((track) =>
    partsOf(track).flatMap(({ channel }) => {
      const { notes } = pairNotes(track.columns, channel);
      return Array.from({ length: notes.length }, (_, note) => noteAt(notes, note));
    }),
  );
}

function pitchedNotes(song: Song): {
  readonly notes: readonly SoundingNote[];
  readonly names: readonly string[];
} {
  const parts = tracksTogether(song).flatMap(partsOf);
  const names = parts.map(({ trackName, track }) => (trackName === '' ? `Track ${track}` : trackName));
  return { notes: soundingNotes(song, parts), names };
}

function chordsIn(
  sketch: Song,
  song: Song,
): { readonly chords: readonly Chord[]; readonly names: readonly string[] } {
  const { notes, names } = pitchedNotes(sketch);
  const [from, to] = [sketch.division, song.division];
  const ratio = from.kind === 'ppq' && to.kind === 'ppq' ? to.ppq / from.ppq : 1;
  const chords = chordsOfSketch(notes, clockOf(sketch, 1));
  return {
    chords: chords.map(({ tick, endTick, tones }) => {
      return { tick: Math.round(tick * ratio), endTick: Math.round(endTick * ratio), tones };
    }),
    names,
  };
}
