// A part of a track as a line: notes paired, struck together, measured, marked.
import { type Diagnostic, diagnostic, nearest, quoted, spellPitch } from '../../diagnostics/index.js';
import {
  type ArticulationMap,
  carryMarks,
  heldKeys,
  knownMarks,
  type MarkEvent,
  readMarks,
} from '../../map/index.js';
import {
  clockOf,
  firstData,
  isNoteOff,
  type MusicLocation,
  musicPlace,
  noNotes,
  noteTick,
  offOf,
  type PairedColumns,
  type Part,
  pairNotes,
  pitchOf,
  type Song,
  type Track,
  tickOf,
} from '../../midi/index.js';
import { readControls } from './controls.js';
import { lineOf, type MeasuredLine } from './line.js';

export { partsOf } from '../../midi/index.js';
export { lineOf, type MeasuredLine } from './line.js';
export { LineNote } from './line-note.js';
export type { Measures } from './measures.js';
export { overlapTolerance } from './measures.js';

/**
 * Reads the notes of a part: pairs them, finds what was struck together, and measures each note.
 * Diagnostics are warnings: unclosed-note, stray-release, mark-in-music.
 *
 * @param readsMark whether a mark that is not known here is read elsewhere
 */
export function analyse(
  song: Song,
  part: Part,
  map: ArticulationMap,
  readsMark: (name: string) => boolean = () => false,
): { readonly line: MeasuredLine; readonly diagnostics: readonly Diagnostic[] } {
  const track = song.tracks[part.track - 1];
  const clock = clockOf(song, part.track);
  const where: MusicLocation = { file: song.file, part, clock };
  if (!track) return { line: lineOf({ ...where, part }, noNotes, map, undefined), diagnostics: [] };
  const pairing = pairNotes(track.columns, part.channel);
  const isArticulation = (name: string) => map.articulations.has(name);
  const marks = readMarks(song, track, isArticulation);
  const line = lineOf(
    { ...where, part },
    pairing.notes,
    map,
    marks.length > 0 ? (reaches) => carryMarks(reaches, marks, isArticulation) : undefined,
    readControls(track.columns, part.channel),
  );
  const diagnostics = [
    ...pairingWarnings(where, track, pairing, map),
    ...markWarnings(
      where,
      song,
      marks.filter((mark) => mark.kind !== 'unknown' || !readsMark(mark.name)),
      [...map.articulations.keys()],
    ),
  ];
  return { line, diagnostics };
}

function pairingWarnings(
  where: MusicLocation,
  track: Track,
  pairing: PairedColumns,
  map: ArticulationMap,
): Diagnostic[] {
  const warnings: Diagnostic[] = [];
  const { notes } = pairing;
  for (let note = 0; note < notes.length; note++) {
    if (offOf(notes, note) >= 0) continue;
    warnings.push(
      diagnostic(
        'unclosed-note',
        musicPlace(where, noteTick(notes, note)),
        `note ${pitchOf(notes, note)} is never released; it is taken to end with the track`,
        'add the missing note-off in the recording',
      ),
    );
  }
  const stray = pairing.strayOffs;
  const first = stray[0];
  if (first !== undefined) {
    const reached = heldKeyReleased(track, stray, map);
    warnings.push(
      diagnostic(
        'stray-release',
        musicPlace(where, tickOf(track.columns, first)),
        `${stray.length === 1 ? 'a release has' : `${stray.length} releases have, here first,`} no note to release`,
        reached === undefined
          ? 'they are kept as they are and do no harm'
          : `they are kept as they are; the switch key ${spellPitch(reached, map.middleC)}, which they let go, is pressed again before the next note that needs it`,
      ),
    );
  }
  return warnings;
}

/** A switch key that is held and let go by a stray release, if there is one. */
function heldKeyReleased(
  { columns }: Track,
  strays: readonly number[],
  map: ArticulationMap,
): number | undefined {
  const held = heldKeys(map);
  return strays
    .filter((event) => isNoteOff(columns, event))
    .map((event) => firstData(columns, event) + map.transpose)
    .find((pitch) => held.has(pitch));
}

function markWarnings(
  where: MusicLocation,
  song: Song,
  marks: readonly MarkEvent[],
  names: readonly string[],
): Diagnostic[] {
  return marks.flatMap((mark): Diagnostic[] => {
    if (mark.kind !== 'unknown') return [];
    const trackName = song.tracks[mark.track - 1]?.name ?? '';
    const near = nearest(mark.name, [...names, ...knownMarks, 'auto']);
    return [
      diagnostic(
        'mark-in-music',
        musicPlace({ ...where, part: { track: mark.track, trackName } }, mark.tick),
        `the mark ${quoted(mark.name)} is not known, and changes nothing`,
        near
          ? `did you mean [${near}]?`
          : "marks are MusicXML articulation names, playing words such as [pizz.], and the map's own articulation names",
      ),
    ];
  });
}
