import { readFile } from 'node:fs/promises';
import { dirname, normalize } from 'node:path';
import type { Take } from '../../compare/index.js';
import { onlyParts } from '../../cue/index.js';
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
import { isError, type Outcome } from '../../diagnostics/index.js';
import type { CommonOptions } from '../context.js';
import { loadCue, loadMaterial } from '../cue-files.js';
import { cueTake } from '../cue-parts.js';
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

/** What can be asked of a state of the files about values that are moved. */
export interface Mover {
  /** Says what they come to: the cue is decided anew from the files as they would be. Nothing is written. */
  preview(moved: readonly Moved[]): Promise<Preview>;
  /**
   * Writes them into their files, all or none; comments and order stay. Nothing is written where a value cannot be moved,
   * where the files would have errors, or where one of them is not what it was when it was read.
   */
  write(moved: readonly Moved[]): Promise<Written>;
}

/** Files by path, as they would be. */
type Texts = ReadonlyMap<string, Uint8Array>;

/** @param file the cue */
export function moverFor(file: string, saved: Saved, options: CommonOptions, io: Io): Mover {
  const folder = dirname(file);
  const files = deskFiles(file, saved);
  const movables = [...saved.bounds.flatMap(({ values }) => values), ...saved.levels];
  const before = new Map<string, Promise<Outcome<Take>>>();

  const taken = async (texts: Texts, names: readonly string[]): Promise<Outcome<Take>> => {
    const instead = (path: string) => texts.get(path) ?? saved.files.get(path);
    const { stdin, out, err, color } = io;
    return takeOf(file, names, options, { stdin, out, err, color, instead });
  };
  const wouldBe = (moved: readonly Moved[]) => {
    const { files: changed, refused } = movedFiles(files, movables, moved);
    const outputs = changed.flatMap((one) => {
      const path = pathOf(saved, file, one.name);
      return path === undefined ? [] : [{ ...one, path }];
    });
    return { outputs, refused: refused.map(({ id, why }) => ({ id, why: reasons[why] })) };
  };

  return {
    async preview(moved) {
      const { outputs, refused } = wouldBe(moved);
      if (outputs.length === 0) return { refused, problems: [], changes: nothing };
      const names = affected(file, saved, outputs, moved);
      const key = JSON.stringify(names);
      // What was decided for these parts as the files are; for others nothing can be otherwise.
      const asIs = before.get(key) ?? taken(new Map(), names);
      before.set(key, asIs);
      const [{ value: first }, { value: second, diagnostics }] = [
        await asIs,
        await taken(textsOf(outputs), names),
      ];
      const problems = diagnostics.filter(isError).map((one) => problemOf(one, folder));
      if (!first || !second || problems.length > 0) return { refused, problems, changes: nothing };
      const changes = changesWithin(folder, changesBetween(first, second, saved.ids));
      return { refused, problems, changes: { ...changes, of: saved.notes } };
    },
    async write(moved) {
      const { outputs, refused } = wouldBe(moved);
      const { diagnostics } = await taken(textsOf(outputs), []);
      const problems = diagnostics.filter(isError).map((one) => problemOf(one, folder));
      const [first] = [...refused.map(({ why }) => why), ...problems.map(({ text }) => text)];
      if (first !== undefined) return { refused: first };
      for (const { name, path } of outputs)
        if (!(await isAsRead(path, saved.files.get(path))))
          return { refused: `${name} has been changed meanwhile; look at what it says now, and move again` };
      const written = outputs.map(({ path, text }) => ({ path, content: text }));
      const [failure] = putOutputs(written, io).filter(isError);
      return failure
        ? { refused: problemOf(failure, folder).text }
        : { files: outputs.map(({ name }) => name) };
    },
  };
}

interface Output extends DeskFile {
  readonly path: string;
}

function textsOf(outputs: readonly Output[]): Texts {
  return new Map(outputs.map(({ path, text }) => [path, new TextEncoder().encode(text)]));
}

/** Reads and decides the parts of a cue that have these names; all of them for none. */
async function takeOf(
  file: string,
  names: readonly string[],
  options: CommonOptions,
  io: Io,
): Promise<Outcome<Take>> {
  const { value: whole, diagnostics: ofCue } = await loadCue(file, options, io);
  if (!whole) return { value: undefined, diagnostics: ofCue };
  const cue = onlyParts(whole, names);
  const { value: material, diagnostics } = await loadMaterial(cue, options, io);
  return cueTake(cue, material, [...ofCue, ...diagnostics]);
}

/** The names of the parts that changed files play or place, and of those that share a track with them. */
function affected(
  file: string,
  { cue, placed }: Saved,
  outputs: readonly Output[],
  moved: readonly Moved[],
): readonly string[] {
  const paths = new Set(outputs.map(({ path }) => normalize(path)));
  const levels = paths.has(normalize(file))
    ? cue.parts.filter((_, index) => moved.some(({ id }) => id.endsWith(`#parts.${index}.level`)))
    : [];
  const named = new Set([
    ...levels.map(({ name }) => name),
    ...placed.flatMap(({ of, maps }) => (maps.some((path) => paths.has(path)) ? [of] : [])),
  ]);
  const tracks = new Set(placed.flatMap(({ of, track }) => (named.has(of) ? [track] : [])));
  const names = new Set(placed.flatMap(({ of, track }) => (tracks.has(track) ? [of] : [])));
  return cue.parts.flatMap(({ name }) => (names.has(name) ? [name] : []));
}

async function isAsRead(path: string, before: Uint8Array | undefined): Promise<boolean> {
  const now = await readFile(path).catch(() => undefined);
  return now !== undefined && before !== undefined && now.equals(before);
}
