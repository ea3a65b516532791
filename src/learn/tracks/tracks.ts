import { analyse, decide, decideExample, decisionsOf } from '../../compile/index.js';
import { type Diagnostic, diagnostic, spellPitch } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Part, Song } from '../../midi/index.js';
import { heardIn, ownChannel, stripSwitches } from '../../prove/index.js';
import { findExamples, type LearnedExample } from '../examples.js';
import { type Learned, learn } from '../learn.js';
import { mapText } from '../map-text.js';
import type { LearnNotes } from '../notes.js';
import { columnsOf, type LearnLine } from './columns.js';

/** A part of a recording in which switches were placed by hand. */
export interface SwitchedPart {
  /** What it is called where people are told of it. */
  readonly name: string;
  readonly song: Song;
  readonly part: Part;
}

/** Everything that was heard in the tracks, and what was learned of it. */
export interface LearnedTracks {
  readonly notes: LearnNotes;
  readonly lines: readonly LearnLine[];
  readonly learned: Learned;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Learns from tracks with switches in them. What sounded at each note is told by the model of the library that proofs
 * have; the notes are measured once the switches are out of the track.
 *
 * @param sketch its articulations and switches count, its rules do not
 */
export function learnTracks(parts: readonly SwitchedPart[], sketch: ArticulationMap): LearnedTracks {
  const names = [...sketch.articulations.keys()];
  const read = parts.map((one) => lineOf(one, sketch, names));
  const lines = read.map(({ line }) => line);
  const notes = columnsOf(lines, names);
  return { notes, lines, learned: learn(notes), diagnostics: read.flatMap(({ diagnostics }) => diagnostics) };
}

function lineOf(
  { name, song, part: given }: SwitchedPart,
  sketch: ArticulationMap,
  names: readonly string[],
): { readonly line: LearnLine; readonly diagnostics: readonly Diagnostic[] } {
  const track = song.tracks[given.track - 1];
  const part = { ...given, channel: (track && ownChannel(track, sketch)) ?? given.channel };
  const without = stripSwitches(song, part, sketch);
  const heard = track ? heardIn(track, part, sketch) : [];
  const stripped = {
    ...song,
    tracks: song.tracks.map((one) => (without && one.number === without.number ? without : one)),
  };
  const { line, diagnostics } = analyse(stripped, part, sketch, (mark) => mark !== '');
  // Note-ons have kept their order, but not their indices.
  const inOrder = line.notes.map(({ onIndex }) => onIndex).sort((a, b) => a - b);
  const labels = new Map(inOrder.map((onIndex, ordinal) => [onIndex, names.indexOf(heard[ordinal] ?? '')]));
  const labelOf = ({ onIndex }: { readonly onIndex: number }) => labels.get(onIndex) ?? -1;
  return { line: { name, line, chords: sketch.chords, labelOf }, diagnostics };
}

/** A map's text with what was learned in it. */
export interface WrittenMap {
  readonly text: string;
  readonly examples: readonly LearnedExample[];
}

/**
 * The sketch with the rules that were learned. Its examples are tried with the map itself, and those that it would not
 * give so are not written: a note alone may be measured otherwise than in its music.
 *
 * @param read reads a map's text; undefined where it has errors
 * @throws NotASketch
 */
export function writtenMap(
  sketch: string,
  { learned, notes }: Pick<LearnedTracks, 'learned' | 'notes'>,
  middleC: ArticulationMap['middleC'],
  read: (text: string) => ArticulationMap | undefined,
): WrittenMap {
  const pitchName = (pitch: number) => spellPitch(pitch, middleC);
  const map = read(mapText(sketch, learned, notes, pitchName, []));
  const examples = map ? findExamples(learned, notes, (example) => holdsIn(map, example, notes)) : [];
  return { text: mapText(sketch, learned, notes, pitchName, examples), examples };
}

function holdsIn(
  map: ArticulationMap,
  { notes: played, expect, bpm = 120 }: LearnedExample,
  notes: LearnNotes,
): boolean {
  const { decided } = decideExample(map, {
    notes: played.map(({ pitch, heldMs, paceMs, velocity }) => ({
      pitch,
      held: { unit: 'ms', ms: heldMs },
      pace: { unit: 'ms', ms: paceMs },
      velocity,
      marked: [],
    })),
    expect: expect.map((articulation) => notes.articulations[articulation] ?? ''),
    bpm,
    place: { kind: 'file', file: map.file },
  });
  return Array.from(decisionsOf(decided)).every(
    ({ note, articulation }) => articulation === notes.articulations[expect[note.onIndex] ?? -1],
  );
}

/** How many notes with a known articulation a map gives what sounded, of how many; decided as `compile` decides. */
export function agreementWith(
  map: ArticulationMap,
  lines: readonly LearnLine[],
  articulations: readonly string[],
): { readonly right: number; readonly of: number } {
  let right = 0;
  let of = 0;
  for (const { line, labelOf } of lines)
    for (const { note, articulation, decidedBy } of decisionsOf(decide(line, map).decided)) {
      const label = labelOf(note);
      if (label < 0 || decidedBy) continue;
      of += 1;
      if (articulations[label] === articulation) right += 1;
    }
  return { right, of };
}

/** What keeps a map from being written, as diagnostics: nothing that is worth a rule was found. */
export function nothingLearned(file: string, { verdict }: Learned): readonly Diagnostic[] {
  if (verdict === 'ladder') return [];
  const why = {
    'by-section': 'no rule fits: the articulations change by section of the music',
    'nothing-fits': 'no rule fits: nothing that can be measured at a note tells which articulation it has',
    'one-articulation': 'only one articulation has notes enough to learn from',
    'too-few': 'no articulation has notes enough to learn from',
  }[verdict];
  const hint =
    verdict === 'by-section'
      ? 'marks in the music, or a map for each section, say that better than rules; nothing was written'
      : 'nothing was written; see that these are the tracks with switches in them, and that the sketch has those switches';
  return [diagnostic('nothing-learned', { kind: 'file', file }, why, hint)];
}
