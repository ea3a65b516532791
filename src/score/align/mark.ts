import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { clockOf, firstData, isNoteOn, readMidi, type Song, tickOf } from '../../midi/index.js';
import { largest } from '../largest.js';
import { playScore } from '../performed.js';
import type { Performance } from '../play/index.js';
import { align } from './align.js';
import { type Edit, editsOf, type Found } from './edits.js';
import { insertTexts } from './insert.js';
import { withOrnamental } from './ornamental.js';
import { type Sides, sidesOf } from './sides.js';
import { listUnmatched, type Taken, type Unmatched, type Written } from './unmatched.js';
import { wrongNotes } from './wrong.js';

/** A take with its score's marks, and what could not be matched. */
export interface MarkedTake {
  /** undefined where one of the two cannot be read. */
  readonly bytes: Uint8Array | undefined;
  readonly edits: readonly Edit[];
  readonly unmatched: readonly Unmatched[];
  /** How many notes of the score were found, and how many it has. */
  readonly found: number;
  readonly written: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** A file's bytes and its name, for messages. */
export interface NamedFile {
  readonly bytes: Uint8Array;
  readonly file: string;
}

/** How much is aligned before it is refused. */
export interface AlignLimits {
  /** Written notes times played notes, of one part; 1,000,000,000 where it is not given (31,000 of each). */
  readonly maxCells?: number;
}

/**
 * Finds a score in a take (a Standard MIDI File) and writes its marks and dynamics into it as texts. Nothing else of the
 * take changes.
 */
export function markTake(take: NamedFile, score: NamedFile, limits: AlignLimits = {}): MarkedTake {
  const { value: song, diagnostics: ofTake } = readMidi(take.bytes, take.file);
  const { performance, diagnostics: ofScore } = playScore(score.bytes, score.file);
  const diagnostics = [...ofTake, ...ofScore];
  if (!song || !performance) return { ...nothing, diagnostics };
  const marked = markSong(song, performance, limits);
  return { ...marked, diagnostics: [...diagnostics, ...marked.diagnostics] };
}

/** The same, of a take and a score that were read. */
export function markSong(
  song: Song,
  performance: Performance,
  { maxCells = 1_000_000_000 }: AlignLimits = {},
): MarkedTake {
  const sides = sidesOf(song, performance);
  const cells = largest(
    sides.map((one) => cellsOf(song, one)),
    0,
  );
  if (cells > maxCells) return { ...nothing, diagnostics: [tooLong(song.file, cells)] };
  const marked = sides.map((one) => markSides(song, performance, one));
  const edits = marked.flatMap((one) => one.edits);
  const { value: bytes, diagnostics } = insertTexts(song, edits);
  return {
    bytes,
    edits,
    unmatched: marked.flatMap((one) => one.unmatched),
    found: marked.reduce((sum, one) => sum + one.found, 0),
    written: performance.parts.reduce((sum, { notes }) => sum + notes.length, 0),
    diagnostics,
  };
}

const nothing = { bytes: undefined, edits: [], unmatched: [], found: 0, written: 0 };

function cellsOf(song: Song, sides: Sides): number {
  return takenNotes(song, sides).length * sides.parts.reduce((sum, { notes }) => sum + notes.length, 0);
}

function tooLong(file: string, cells: number): Diagnostic {
  return diagnostic(
    'score-too-large',
    { kind: 'file', file },
    `score and take have ${cells} pairs of notes, too many to compare`,
    'split the take and the score, movement by movement',
  );
}

function markSides(song: Song, performance: Performance, sides: Sides) {
  const written = sides.parts
    .flatMap((part) => part.notes.map((note): Written => ({ note, part })))
    .sort((a, b) => a.note.tick - b.note.tick);
  const taken = takenNotes(song, sides);
  const notes = written.map(({ note }) => ({
    time: note.tick,
    pitch: note.pitch,
    isGrace: note.isGrace,
    ornament: note.ornament,
  }));
  const alignment = withOrnamental(notes, taken, align(notes, taken));
  const wrong = wrongNotes(notes, taken, alignment);
  const matched = [...alignment.pairs, ...wrong, ...alignment.ornamental].flatMap((pair): Found[] => {
    const [one, other] = [written[pair.written], taken[pair.taken]];
    return one && other
      ? [{ part: one.part, scoreTick: one.note.tick, track: other.track, takeTick: other.tick }]
      : [];
  });
  const tracks = sides.tracks.map(({ number }) => number);
  const all = sides.parts.map((part) => editsOf(part, matched, tracks));
  return {
    edits: all.flatMap(({ edits }) => edits),
    found: alignment.pairs.length,
    unmatched: listUnmatched(
      { written, taken, alignment, wrong, matched, performance },
      all.flatMap(({ lost }) => lost),
    ),
  };
}

/** All notes of tracks, in order of onset. */
function takenNotes(song: Song, { tracks }: Sides): readonly Taken[] {
  const taken: Taken[] = [];
  for (const { number: track, columns } of tracks) {
    const clock = clockOf(song, track);
    for (let event = 0; event < columns.length; event++) {
      if (!isNoteOn(columns, event)) continue;
      const tick = tickOf(columns, event);
      taken.push({ track, tick, ms: clock.ms(tick), pitch: firstData(columns, event) });
    }
  }
  return taken.sort((a, b) => a.ms - b.ms || a.pitch - b.pitch);
}
