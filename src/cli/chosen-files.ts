import { existsSync, statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { posix } from 'node:path';
import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { baseNamed } from '../map/index.js';
import { type CommonOptions, limits } from './context.js';
import { gitList, gitText } from './git/run.js';
import { isVersion, readVersion } from './git/version.js';
import type { Io } from './io.js';
import { patternBelow } from './pattern-below.js';
import { whileWaiting } from './progress.js';

/** Files that words of the command line stand for, each once, and what is wrong with the words. */
export interface Chosen {
  readonly files: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * The maps and cues that words stand for: a file is itself; a folder is those in it and below, hidden folders and
 * node_modules left out; a pattern (`maps/*.yaml`) is what fits it; `:` before either means as git has it staged.
 * Found files that say no format of keyslip's are passed over, and so are those that only lend to others that are found:
 * they are looked at with these. Who wants to be told of what is opened is told of the folders; where it takes long, a terminal is told what is looked for. Errors: no-files, for a folder or pattern without any.
 */
export function chosenFiles(words: readonly string[], options: CommonOptions, io: Io): Promise<Chosen> {
  return whileWaiting(io, options, 'looking for maps and cues', lookedFor(words, io));
}

async function lookedFor(words: readonly string[], { opening }: Pick<Io, 'opening'>): Promise<Chosen> {
  if (opening) for (const word of words) for (const folder of await foldersOf(word)) opening(folder);
  const behindWords: { readonly word: string; readonly found: readonly Found[] | undefined }[] = [];
  for (const word of words) behindWords.push({ word, found: await behind(word) });
  const lenders = lendersAmong(behindWords.flatMap(({ found }) => found ?? []));
  const named = new Set(behindWords.flatMap(({ word, found }) => (found ? [] : [word])));
  const files = behindWords.flatMap(({ word, found }) => found?.map(({ path }) => path) ?? [word]);
  return {
    files: [...new Set(files.filter((file) => named.has(file) || !lenders.has(posix.normalize(file))))],
    diagnostics: behindWords.flatMap(({ word, found }) => (found?.length === 0 ? [noFiles(word)] : [])),
  };
}

/** A file that a folder or a pattern has, and what is in it; undefined where it cannot be read. */
interface Found {
  readonly path: string;
  readonly bytes: Uint8Array | undefined;
}

/** The files of a folder or pattern that are maps or cues, in order of their names; undefined for a word that names one file. */
async function behind(word: string): Promise<readonly Found[] | undefined> {
  if (word === '-') return undefined;
  if (word.startsWith(':') && isVersion(word)) return stagedBehind(word.slice(1));
  const isFolder = isFolderAt(word);
  if (!isFolder && existsSync(word)) return undefined;
  // What looks for files is not read where every word names one.
  const { glob, isDynamicPattern } = await import('tinyglobby');
  if (!isFolder && !isDynamicPattern(word)) return undefined;
  const pattern = isFolder ? await patternBelow(word, '{yaml,yml}') : word;
  const paths = await glob(pattern, { ignore: ['**/node_modules/**'], expandDirectories: false });
  return ours(paths.map((path) => (word.startsWith('./') && !path.startsWith('./') ? `./${path}` : path)));
}

/** The same of what is staged; paths are from the top of the repository, or from here where they begin with `./`. */
async function stagedBehind(word: string): Promise<readonly Found[] | undefined> {
  const { isDynamicPattern } = await import('tinyglobby');
  const isHere = /^\.{1,2}(\/|$)/u.test(word);
  const isPattern = isDynamicPattern(word);
  const magic = [...(isHere ? [] : ['top']), isPattern ? 'glob' : 'literal'].join(',');
  const paths = await gitList('ls-files', '-z', '--full-name', '--', `:(${magic})${word}`);
  const whole = isHere
    ? posix.normalize(`${(await gitText('rev-parse', '--show-prefix')) ?? ''}${word}`)
    : word;
  // A word that git knows as one file, or not at all, is that file: reading it tells what is wrong.
  if (!isPattern && (paths.length === 0 || paths.includes(whole))) return undefined;
  const yaml = [...new Set(paths)].filter((path) => /\.ya?ml$/u.test(path) && !isHidden(path));
  return ours(yaml.map((path) => `:${path}`));
}

function isHidden(path: string): boolean {
  return path.split('/').some((step) => step.startsWith('.') || step === 'node_modules');
}

/** What cannot be looked at is no folder: reading it says why. */
function isFolderAt(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/** The folders in which files may appear that a word will stand for: a folder, or that of a pattern, and those below. */
async function foldersOf(word: string): Promise<readonly string[]> {
  if (word === '-' || isVersion(word) || (existsSync(word) && !isFolderAt(word))) return [];
  const { glob, isDynamicPattern } = await import('tinyglobby');
  if (!isFolderAt(word) && !isDynamicPattern(word)) return [];
  const steps = word.split('/');
  const magic = steps.findIndex((step) => isDynamicPattern(step));
  const folder = isFolderAt(word)
    ? word
    : steps.slice(0, magic).join('/') || (word.startsWith('/') ? '/' : '.');
  const below = await glob(await patternBelow(folder), {
    ignore: ['**/node_modules/**'],
    onlyDirectories: true,
  });
  return [folder, ...below];
}

/** Those that say a format of keyslip's; one that cannot be read, or is not merged, is looked at too, for what is wrong with it. */
async function ours(paths: readonly string[]): Promise<readonly Found[]> {
  const kept: Found[] = [];
  for (const path of [...paths].sort()) {
    const bytes = await contentOf(path);
    const text = new TextDecoder().decode(bytes ?? new Uint8Array());
    if (text === '' || /^\uFEFF?[{\s]*["']?format["']?\s*:\s*["']?keyslip-/mu.test(text))
      kept.push({ path, bytes });
  }
  return kept;
}

/** The files that are lent by others of the same list. */
function lendersAmong(found: readonly Found[]): ReadonlySet<string> {
  return new Set(
    found.flatMap(({ path, bytes }) => {
      const base = bytes && baseNamed(bytes);
      if (base === undefined) return [];
      const folder = path.slice(0, Math.max(path.lastIndexOf('/'), path.startsWith(':') ? 0 : -1) + 1);
      return [posix.normalize(`${folder}${base}`)];
    }),
  );
}

async function contentOf(path: string): Promise<Uint8Array | undefined> {
  if (isVersion(path)) return (await readVersion(path, limits.map)).value;
  return readFile(path).catch(() => undefined);
}

function noFiles(word: string): Diagnostic {
  return diagnostic(
    'no-files',
    { kind: 'file', file: word },
    'there is no map and no cue in it: no file with "format: keyslip-map/1" or "format: keyslip-cue/1"',
    'name the folder that has the maps, or a pattern in quotes ("maps/*.yaml")',
  );
}
