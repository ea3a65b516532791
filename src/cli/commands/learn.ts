import {
  type Diagnostic,
  diagnostic,
  escapeText,
  isError,
  type Outcome,
  spellPitch,
} from '../../diagnostics/index.js';
import {
  agreementWith,
  learnedJson,
  learnTracks,
  NotASketch,
  nothingLearned,
  reportText,
  type SwitchedPart,
  type WrittenMap,
  withSomeRule,
  writtenMap,
} from '../../learn/index.js';
import { type ArticulationMap, readMap } from '../../map/index.js';
import { basesOf } from '../bases.js';
import { type CommonOptions, limits, loadSong, show, status } from '../context.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { isSameFile } from '../files/same.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';
import { titleOf } from '../title.js';
import { partsChosen, partsOfOnlyTrack } from '../tracks.js';

export interface LearnOptions extends CommonOptions {
  readonly map?: string;
  readonly output?: string;
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
}

/** `keyslip learn`: finds the rules by which switches were placed by hand, and writes them into a sketch of a map. */
export async function learnCommand(
  inputs: readonly string[],
  options: LearnOptions,
  io: Io,
): Promise<number> {
  const { sketchFile, output } = filesOf(inputs, options);
  const { value: sketch, diagnostics: ofSketch } = await loadSketch(sketchFile, options, io);
  const { parts, diagnostics: ofSongs } = await loadParts(inputs, options, io);
  const found = [...ofSketch, ...ofSongs];
  if (!sketch || status(found, options) !== exit.done) return refused(found, options, io);
  const tracks = learnTracks(parts, sketch.map);
  const { learned, notes } = tracks;
  const pitchName = (pitch: number) => spellPitch(pitch, sketch.map.middleC);
  const { value: written, diagnostics: ofText } =
    learned.verdict === 'ladder' ? write(sketch, tracks) : nothing(sketchFile, learned);
  const map = written && sketch.read(written.text);
  const failures = written && map ? putOutputs([{ path: output, content: written.text }], io) : [];
  const all = [...found, ...tracks.diagnostics, ...ofText, ...failures];
  const alike = map && agreementWith(map, tracks.lines, notes.articulations);
  if (options.json && output !== '-')
    printJson({ ...learnedJson(tracks, pitchName, alike), output, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet) {
    const told = [reportText(learned, notes, { pitchName, safe: escapeText })];
    if (alike && alike.of > 0 && !failures.some(isError))
      told.push(
        `${escapeText(output === '-' ? 'the map' : output)} decides ${alike.right} of ${alike.of} notes as they sounded (${((100 * alike.right) / alike.of).toFixed(1)} %)`,
      );
    (output === '-' ? io.err : io.out)(`${told.join('\n')}\n`);
  }
  return show(all, options, io);
}

function filesOf(inputs: readonly string[], { map, output }: LearnOptions) {
  if (map === undefined)
    throw new UsageError('say which articulations and switches there are: --map SKETCH.yaml');
  if (output === undefined) throw new UsageError('say where the map goes: -o MAP.yaml');
  if ([...inputs, map].filter((file) => file === '-').length > 1)
    throw new UsageError('only one of the files can come from standard input');
  if ([...inputs, map].some((file) => isSameFile(file, output)))
    throw new UsageError('the map would overwrite a file that it is made from: give it another name');
  return { sketchFile: map, output };
}

/** A sketch, and how a text in its place is read. */
interface Sketch {
  readonly text: string;
  readonly map: ArticulationMap;
  read(text: string): ArticulationMap | undefined;
}

async function loadSketch(file: string, options: LearnOptions, io: Io): Promise<Outcome<Sketch>> {
  const maxBytes = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(file, maxBytes, io);
  if (!bytes) return { value: undefined, diagnostics };
  const bases = await basesOf(bytes, file, maxBytes, io);
  const readAs = (text: string) =>
    readMap(new TextEncoder().encode(text), file, { maxBytes: maxBytes + 1024 * 1024, bases });
  const text = new TextDecoder().decode(bytes);
  // Too large, or no text at all: that is told of the file as it is.
  const isText = bytes.length <= maxBytes && Buffer.from(text).equals(bytes);
  const { value: map, diagnostics: found } = isText
    ? readAs(withSomeRule(text))
    : readMap(bytes, file, { maxBytes, bases });
  return {
    value: map && { text, map, read: (edited) => readAs(edited).value },
    // What its rules are, and whether they are reached, is of no matter.
    diagnostics: found.filter(({ code }) => code !== 'dead-rule'),
  };
}

async function loadParts(
  inputs: readonly string[],
  options: LearnOptions,
  io: Io,
): Promise<{ readonly parts: readonly SwitchedPart[]; readonly diagnostics: readonly Diagnostic[] }> {
  const parts: SwitchedPart[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const input of inputs) {
    const { value: song, diagnostics: found } = await loadSong(input, options, io);
    diagnostics.push(...found);
    if (!song) continue;
    const chosen = partsChosen(song, options, partsOfOnlyTrack);
    // A track that goes to several channels is one part.
    const tracks = [...new Map(chosen.map((part) => [part.track, part])).values()];
    if (tracks.length === 0) diagnostics.push(noNotes(input));
    const title = titleOf(input);
    for (const part of tracks)
      parts.push({
        name: tracks.length === 1 ? title : `${title} ${part.trackName || part.track}`,
        song,
        part,
      });
  }
  return { parts, diagnostics };
}

function noNotes(file: string): Diagnostic {
  return diagnostic(
    'no-notes',
    { kind: 'file', file },
    'there are no notes to learn from in the tracks that were chosen',
    'see that the recording is in this file, and on the track that --track names',
  );
}

function write({ text, map, read }: Sketch, tracks: Parameters<typeof writtenMap>[1]): Outcome<WrittenMap> {
  try {
    return { value: writtenMap(text, tracks, map.middleC, read), diagnostics: [] };
  } catch (error) {
    if (!(error instanceof NotASketch)) throw error;
    const place = { kind: 'file', file: map.file } as const;
    const hint = 'write one key on each line; keyslip init writes a map to begin from';
    return { value: undefined, diagnostics: [diagnostic('no-sketch', place, error.message, hint)] };
  }
}

function nothing(file: string, learned: Parameters<typeof nothingLearned>[1]): Outcome<WrittenMap> {
  return { value: undefined, diagnostics: nothingLearned(file, learned) };
}

function refused(diagnostics: readonly Diagnostic[], options: LearnOptions, io: Io): number {
  if (options.json) printJson({ format: 'keyslip-learn/1', diagnostics: jsonOf(diagnostics) }, io);
  return show(diagnostics, options, io);
}
