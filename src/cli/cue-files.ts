import { dirname, join } from 'node:path';
import { type Cue, type CueMaterial, type Located, mapsOf, onlyParts, readCue } from '../cue/index.js';
import { type Diagnostic, diagnostic, isError, nearest, type Outcome, quoted } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { type CommonOptions, limits, loadMap, loadSong } from './context.js';
import { isHidden, leavesFolder } from './files/below.js';
import { isMusicOrNothing } from './files/music.js';
import { readInput } from './files/read.js';
import { isSameFile } from './files/same.js';
import { type Io, UsageError } from './io.js';

/** A cue with the files that it names. */
export interface LoadedCue {
  readonly cue: Cue;
  readonly material: CueMaterial;
}

/** Reads a cue file. The folder of a cue on standard input is the current one. */
export async function loadCue(file: string, options: CommonOptions, io: Io): Promise<Outcome<Cue>> {
  const maxBytes = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(file, maxBytes, io);
  return bytes ? readCue(bytes, file, { maxBytes }) : { value: undefined, diagnostics };
}

/** The cue with the parts of these names only; every part for none. */
export function chosenParts(cue: Cue, names: readonly string[]): Cue {
  const known = cue.parts.map(({ name }) => name);
  const wrong = names.find((name) => !known.includes(name));
  if (wrong === undefined) return onlyParts(cue, names);
  const near = nearest(wrong, known);
  const hint =
    near === undefined ? `its parts are ${known.map(quoted).join(', ')}` : `did you mean ${quoted(near)}?`;
  throw new UsageError(`the cue has no part ${quoted(wrong)}`, hint);
}

/** Reads the source and the maps of a cue. Every error of every file is reported. */
export async function loadMaterial(cue: Cue, options: CommonOptions, io: Io): Promise<Outcome<CueMaterial>> {
  const { value: song, diagnostics: ofSong } = await loadNamed(cue, cue.source, (path) =>
    loadSong(path, options, io),
  );
  const { value: maps, diagnostics: ofMaps } = await loadMeasuredMaps(cue, options, io);
  return { value: song && maps && { song, maps }, diagnostics: [...ofSong, ...ofMaps] };
}

/**
 * Reads the maps of a cue, and where levels are relative to the softest of its measured libraries, also those of parts
 * that were left out.
 */
async function loadMeasuredMaps(
  cue: Cue,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<CueMaterial['maps']>> {
  const own = await loadCueMaps(cue, options, io);
  const { leftOut = [], referenceLevel } = cue;
  const isMeasured = own.value && [...own.value.values()].some((map) => map.referenceLevel !== undefined);
  if (!isMeasured || leftOut.length === 0 || referenceLevel !== undefined) return own;
  const others = await loadCueMaps({ ...cue, parts: leftOut }, options, io);
  return {
    value: others.value && own.value && new Map([...others.value, ...own.value]),
    diagnostics: [...own.diagnostics, ...others.diagnostics.filter(isError)],
  };
}

/** Reads the maps of a cue alone, by the paths that the cue has for them. */
export async function loadCueMaps(
  cue: Cue,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<CueMaterial['maps']>> {
  const diagnostics: Diagnostic[] = [];
  const maps = new Map<string, ArticulationMap>();
  const named = mapsOf(cue);
  for (const spelled of named) {
    const { value: map, diagnostics: found } = await loadNamed(cue, spelled, (path) =>
      loadMap(path, options, io),
    );
    diagnostics.push(...found);
    if (map) maps.set(spelled.text, map);
  }
  return { value: maps.size === named.length ? maps : undefined, diagnostics };
}

async function loadNamed<T>(
  cue: Cue,
  spelled: Located,
  read: (path: string) => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  const outside = pathOutside(cue, spelled);
  return outside ? { value: undefined, diagnostics: [outside] } : read(besideCue(cue, spelled));
}

/** A path of a cue, from the current folder. */
export function besideCue(cue: Cue, { text }: Located): string {
  return join(dirname(cue.file), text);
}

/** The source and the maps of a cue, from the current folder. */
function inputsOf(cue: Cue): readonly string[] {
  return [cue.source, ...mapsOf(cue)].map((spelled) => besideCue(cue, spelled));
}

/** path-outside: a path that leads out of the cue's folder through links. */
export function pathOutside(cue: Cue, spelled: Located): Diagnostic | undefined {
  if (!leavesFolder(dirname(cue.file), besideCue(cue, spelled))) return undefined;
  return diagnostic(
    'path-outside',
    spelled.place,
    `the path ${quoted(spelled.text)} leads out of the folder of the cue, through a link`,
    'put the file itself below that folder',
  );
}

/**
 * What keeps a cue from writing to the output that it names itself: path-outside, output-not-music (a link leads to a
 * hidden place), output-kept (something that is no music is there).
 */
export function outputRefused(cue: Cue, isReplaced: boolean): readonly Diagnostic[] {
  const outside = pathOutside(cue, cue.output);
  if (outside) return [outside];
  const path = besideCue(cue, cue.output);
  const { place, text } = cue.output;
  if (isHidden(dirname(cue.file), path)) {
    const message = `the output ${quoted(text)} leads to a hidden place, through a link`;
    return [
      diagnostic('output-not-music', place, message, 'a cue writes beside itself, where it can be seen'),
    ];
  }
  if (isReplaced || isMusicOrNothing(path)) return [];
  const message = `${quoted(text)} is there already, and is no MIDI file`;
  return [
    diagnostic(
      'output-kept',
      place,
      message,
      'give the output another name; --replace lets the cue replace it',
    ),
  ];
}

/** output-is-input: the result would overwrite a file that it is made from. */
export function overwrites(cue: Cue, output: string): readonly Diagnostic[] {
  const same = [cue.file, ...inputsOf(cue)].find((input) => isSameFile(input, output));
  if (same === undefined) return [];
  return [
    diagnostic(
      'output-is-input',
      cue.output.place,
      `the output would overwrite ${quoted(same)}`,
      'give the output another name',
    ),
  ];
}
