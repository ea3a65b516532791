import { join, resolve } from 'node:path';
import { compareArticulations, compareExamples, compareMaps } from '../../compare/index.js';
import { type Cue, isCue, readCue } from '../../cue/index.js';
import { type Diagnostic, diagnostic, escapeText, plural } from '../../diagnostics/index.js';
import { readMap } from '../../map/index.js';
import {
  type Comparison,
  changeDiagnostics,
  comparisonJson,
  comparisonText,
  counts,
} from '../../report/index.js';
import { basesOf } from '../bases.js';
import { chosenFiles } from '../chosen-files.js';
import { limits, loadSong, show, status } from '../context.js';
import { readInput } from '../files/read.js';
import { printFindings } from '../format.js';
import { type FormatOptions, formatOf } from '../format-option.js';
import { changedSince, type Since } from '../git/since.js';
import { loadMapVersion } from '../git/version.js';
import { exit, type Io } from '../io.js';
import { jsonOf, printJson } from '../json.js';
import { type Played, playedBy, recordingsIn } from '../played.js';

export interface SinceOptions extends FormatOptions {
  /** The revision whose merge base with the current commit is compared with. */
  readonly since: string;
  /** The folder of the recordings. */
  readonly music?: string;
}

/** A map as it is now, and the files that lend to it. */
interface MapFile {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly bases: Awaited<ReturnType<typeof basesOf>>;
}

/** A map that was looked at. */
interface Looked {
  readonly file: string;
  /** `mended`: the version before has errors, so that there is nothing to compare with. */
  readonly state: 'new' | 'changed' | 'mended' | 'unknown';
  readonly comparison?: Comparison;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * `keyslip compare --since`: which notes of the recordings get another articulation by the maps that changed, themselves or
 * by a base, since the current commit and a revision went apart. The status is 1 where any does, and where it cannot be known.
 */
export async function compareSinceCommand(
  words: readonly string[],
  options: SinceOptions,
  io: Io,
): Promise<number> {
  const { value: since, diagnostics: ofGit } = await changedSince(options.since);
  if (!since) return tell({ since: undefined, files: 0, looked: [], about: ofGit }, options, io);
  const chosen = await chosenFiles(words.length === 0 ? ['.'] : words, options, io);
  const { files, diagnostics: ofWords } = chosen;
  const { value: recordings, diagnostics: ofMusic } = await recordingsIn(options.music);
  // Who plays a recording is told by every map and cue that is here, not only by those that are compared.
  const all = words.length === 0 ? files : (await chosenFiles(['.'], options, io)).files;
  const { maps, cues, unreadable } = await readAll(distinct([...files, ...all]), options, io);
  const names = maps.map(({ file }) => file);
  const { played, diagnostics: ofPlaying } = playedBy(names, recordings ?? [], cues);
  const looked = [...unreadable];
  const asked = maps.filter(({ file }) => files.includes(file));
  for (const map of asked) {
    const one = await look(map, played.get(map.file) ?? [], since, options, io);
    if (one) looked.push(one);
  }
  const about = [...ofWords, ...ofMusic, ...ofPlaying];
  return tell({ since, files: asked.length, looked, about }, options, io);
}

/** Files, each once, whatever it is called. */
function distinct(files: readonly string[]): readonly string[] {
  return [...new Map([...files].reverse().map((file) => [resolve(file), file])).values()].reverse();
}

/** The maps and cues among files; what cannot be read is looked at as it is. */
async function readAll(
  files: readonly string[],
  options: SinceOptions,
  io: Io,
): Promise<{
  readonly maps: readonly MapFile[];
  readonly cues: readonly Cue[];
  readonly unreadable: readonly Looked[];
}> {
  const maxBytes = options.maxMap ?? limits.map;
  const maps: MapFile[] = [];
  const cues: Cue[] = [];
  const unreadable: Looked[] = [];
  for (const file of files) {
    const { value: bytes, diagnostics } = await readInput(file, maxBytes, io);
    if (!bytes) unreadable.push({ file, state: 'unknown', diagnostics });
    else if (!isCue(bytes)) maps.push({ file, bytes, bases: await basesOf(bytes, file, maxBytes, io) });
    else {
      const { value: cue, diagnostics: ofCue } = readCue(bytes, file, { maxBytes });
      if (cue) cues.push(cue);
      else unreadable.push({ file, state: 'unknown', diagnostics: ofCue });
    }
  }
  return { maps, cues, unreadable };
}

/** Compares a map with what it was; undefined for one that is as it was. */
async function look(
  { file, bytes, bases }: MapFile,
  played: readonly Played[],
  since: Since,
  options: SinceOptions,
  io: Io,
): Promise<Looked | undefined> {
  const path = since.pathInRepository(file);
  if (path === undefined) return { file, state: 'unknown', diagnostics: [outside(file)] };
  const chain = [...bases.texts.keys()].map((base) => join(bases.folder, base));
  const files = [file, ...chain];
  const inRepository = (one: string) => since.pathInRepository(one) ?? '';
  const changed = files.map(inRepository).filter((one) => since.changed.has(one));
  const open = [...files, ...played.map((one) => one.file)].filter((one) =>
    since.unmerged.has(inRepository(one)),
  );
  if (changed.length === 0 && open.length === 0) return undefined;
  const maxBytes = options.maxMap ?? limits.map;
  const now = readMap(bytes, file, { maxBytes, bases });
  const isTold = now.diagnostics.some(({ code }) => code === 'merge-conflict');
  const conflicts = isTold ? [] : open.map(unmerged);
  const diagnostics = [...now.diagnostics, ...conflicts];
  const before = since.changed.has(path) ? since.changed.get(path) : path;
  if (before === undefined) return { file, state: 'new', diagnostics };
  if (!now.value || conflicts.length > 0) return { file, state: 'unknown', diagnostics };
  const was = await loadMapVersion(`${since.base}:${before}`, options, io);
  if (!was.value) return { file, state: 'mended', diagnostics };
  const maps = { a: was.value, b: now.value };
  const { parts, diagnostics: ofMusic } = await compareRecordings(maps, played, options, io);
  const examples = played.length === 0 ? compareExamples(maps.a, maps.b) : [];
  const articulations = compareArticulations(maps.a, maps.b);
  const nothing = played.length === 0 && examples.length === 0 ? [silent(file)] : [];
  const comparison = { ...maps, parts, examples, articulations };
  return { file, state: 'changed', comparison, diagnostics: [...diagnostics, ...ofMusic, ...nothing] };
}

async function compareRecordings(
  { a, b }: Pick<Comparison, 'a' | 'b'>,
  played: readonly Played[],
  options: SinceOptions,
  io: Io,
): Promise<Pick<Comparison, 'parts'> & { readonly diagnostics: readonly Diagnostic[] }> {
  const parts: Comparison['parts'][number][] = [];
  const diagnostics: Diagnostic[] = [];
  for (const { file, parts: partsIn } of played) {
    const { value: song, diagnostics: ofSong } = await loadSong(file, options, io);
    const chosen = song && partsIn(song);
    diagnostics.push(...ofSong, ...(chosen?.diagnostics ?? []));
    if (!song || !chosen?.value) continue;
    const compared = compareMaps(song, chosen.value, a, b);
    parts.push(...compared.parts);
    // What only the version before gives rise to is over.
    diagnostics.push(...compared.ofB);
  }
  return { parts, diagnostics };
}

interface Told {
  /** undefined where it could not be found out. */
  readonly since: Since | undefined;
  /** How many maps there are. */
  readonly files: number;
  readonly looked: readonly Looked[];
  /** What is wrong besides the maps. */
  readonly about: readonly Diagnostic[];
}

async function tell({ since, files, looked, about }: Told, options: SinceOptions, io: Io): Promise<number> {
  const diagnostics = [...about, ...looked.flatMap((one) => one.diagnostics)];
  const comparisons = looked.flatMap(({ comparison }) => comparison ?? []);
  const changes = comparisons.reduce((sum, one) => sum + counts(one).changes, 0);
  const notes = comparisons.reduce((sum, one) => sum + counts(one).notes, 0);
  const findings = () => [
    ...about.map((one) => ({ file: one.place.file, diagnostics: [one] })),
    ...looked.map(({ file, diagnostics: own, comparison }) => ({
      file,
      diagnostics: [...own, ...(comparison ? changeDiagnostics(comparison) : [])],
    })),
  ];
  if (!(await printFindings('compare', findings, options, io))) {
    if (formatOf(options) === 'json')
      printJson(
        {
          since: options.since,
          base: since?.base ?? null,
          notes,
          changes,
          maps: looked.map(({ file, state, comparison }) => ({
            map: file,
            state,
            ...(comparison ? comparisonJson(comparison) : {}),
          })),
          diagnostics: jsonOf(diagnostics),
        },
        io,
      );
    else if (since) io.out(text(looked, since, files, { notes, changes }, options));
    show(diagnostics, options, io);
  }
  return status(diagnostics, options) || (changes > 0 ? exit.errors : exit.done);
}

function text(
  looked: readonly Looked[],
  { base }: Since,
  files: number,
  { notes, changes }: { readonly notes: number; readonly changes: number },
  { since, quiet }: SinceOptions,
): string {
  const words = { new: 'is new', mended: `had errors at ${base}`, unknown: 'cannot be compared' };
  const blocks = looked.flatMap(({ file, state, comparison }) => {
    if (!comparison) return quiet || state === 'changed' ? [] : [`${escapeText(file)}: ${words[state]}`];
    const said = comparisonText(comparison, quiet === true);
    return said === '' ? [] : [`${escapeText(file)}, against ${escapeText(comparison.a.file)}:\n${said}`];
  });
  const sum = `${looked.length} of ${plural(files, 'map')} changed since ${base}, where this and ${escapeText(since)} went apart: ${changes} of ${plural(notes, 'note')} get another articulation.`;
  const all = quiet ? blocks : [...blocks, sum];
  return all.length === 0 ? '' : `${all.join('\n\n')}\n`;
}

function outside(file: string): Diagnostic {
  return diagnostic(
    'no-repository',
    { kind: 'file', file },
    'it stands outside of the repository, which does not know what it was',
    'name maps of this repository',
  );
}

function unmerged(file: string): Diagnostic {
  return diagnostic(
    'merge-conflict',
    { kind: 'file', file },
    'git lists it as not merged yet',
    'settle the merge in the file, and stage it (git add)',
  );
}

function silent(file: string): Diagnostic {
  return diagnostic(
    'no-notes',
    { kind: 'file', file },
    'it changed, and there is nothing to hear the change in: no recording that it plays, and no examples',
    'write examples into the map, or put a recording that is named after it into the folder of --music',
  );
}
