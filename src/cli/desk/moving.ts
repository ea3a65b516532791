import { readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import {
  type Changes,
  changesBetween,
  type DeskFile,
  type Moved,
  movedFiles,
  type NotMoved,
  type Preview,
  type Written,
} from '../../desk/index.js';
import { type Diagnostic, isError } from '../../diagnostics/index.js';
import type { CommonOptions } from '../context.js';
import { loadCue, loadMaterial } from '../cue-files.js';
import { decidedCue } from '../cue-parts.js';
import { putOutputs } from '../files/put.js';
import type { Io } from '../io.js';
import { changesWithin, problemOf } from './problems.js';
import { deskFiles, pathOf, type Saved } from './saved.js';

const nothing: Changes = { list: [], decided: 0, of: 0 };

const reasons: Readonly<Record<NotMoved, string>> = {
  unknown: 'it does not stand there any more',
  'out-of-reach': 'it cannot be so much',
  'not-there': 'the file does not have the place',
  alias: 'an alias stands there, and what it names is used elsewhere too',
  shape: 'what stands there is not of the shape that was expected',
  spoils: 'putting it there would change something else in the file',
};

/** The files as they would be, and what the music would come to then. */
interface Would extends Preview {
  readonly files: readonly DeskFile[];
}

/** Says what moved values come to: the cue is decided anew from the files as they would be. Nothing is written. */
export async function previewOf(
  cueFile: string,
  saved: Saved,
  moved: readonly Moved[],
  options: CommonOptions,
  io: Io,
): Promise<Would> {
  const movables = [...saved.bounds.flatMap(({ values }) => values), ...saved.levels];
  const { files, refused: notMoved } = movedFiles(deskFiles(cueFile, saved), movables, moved);
  const refused = notMoved.map(({ id, why }) => ({ id, why: reasons[why] }));
  if (files.length === 0) return { files, refused, problems: [], changes: nothing };
  const texts = new Map(
    files.map(({ name, text }) => [pathOf(saved, cueFile, name), new TextEncoder().encode(text)]),
  );
  const reading: Io = {
    stdin: io.stdin,
    out: io.out,
    err: io.err,
    color: io.color,
    instead: (path) => texts.get(path) ?? saved.files.get(path),
  };
  const { value: cue, diagnostics: ofCue } = await loadCue(cueFile, options, reading);
  const loaded = cue ? await loadMaterial(cue, options, reading) : undefined;
  const decided = cue && loaded?.value ? decidedCue(cue, loaded.value) : undefined;
  const found: readonly Diagnostic[] = [
    ...ofCue,
    ...(loaded?.diagnostics ?? []),
    ...(decided?.diagnostics ?? []),
  ];
  const problems = found.filter(isError).map((one) => problemOf(one, dirname(cueFile)));
  if (!cue || !decided?.song || problems.length > 0) return { files, refused, problems, changes: nothing };
  const take = { song: decided.song, parts: decided.parts, preroll: cue.preroll };
  const changes = changesBetween(saved.take, take, saved.ids);
  return { files, refused, problems, changes: changesWithin(dirname(cueFile), changes) };
}

/**
 * Writes moved values into their files, all or none; comments and order stay. Nothing is written where a value cannot be
 * moved, where the files would have errors, or where one of them is not what it was when it was read.
 */
export async function writeMoved(
  cueFile: string,
  saved: Saved,
  moved: readonly Moved[],
  options: CommonOptions,
  io: Io,
): Promise<Written> {
  const { files, refused, problems } = await previewOf(cueFile, saved, moved, options, io);
  const [first] = [...refused.map(({ why }) => why), ...problems.map(({ text }) => text)];
  if (first !== undefined) return { refused: first };
  const outputs = files.map(({ name, text }) => ({
    name,
    path: pathOf(saved, cueFile, name) ?? '',
    content: text,
  }));
  for (const { name, path } of outputs)
    if (!(await isAsRead(path, saved.files.get(path))))
      return { refused: `${name} has been changed meanwhile; look at what it says now, and move again` };
  const [failure] = putOutputs(outputs, io).filter(isError);
  return failure
    ? { refused: problemOf(failure, dirname(cueFile)).text }
    : { files: outputs.map(({ name }) => name) };
}

async function isAsRead(path: string, before: Uint8Array | undefined): Promise<boolean> {
  const now = await readFile(path).catch(() => undefined);
  return now !== undefined && before !== undefined && now.equals(before);
}
