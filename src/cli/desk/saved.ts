import { dirname, join, normalize, relative } from 'node:path';
import type { Take } from '../../compare/index.js';
import { type Cue, mapsOf } from '../../cue/index.js';
import {
  type BoundGroup,
  boundsIn,
  type DeskFile,
  levelsIn,
  type Movable,
  type SheetIds,
  sheetIds,
} from '../../desk/index.js';
import { escapeText } from '../../diagnostics/index.js';
import { noteId, type SheetTask } from '../../sheet/index.js';
import { namedPart } from '../cue-parts.js';

/** A state of the files that had no errors, and what was made of it. */
export interface Saved {
  readonly title: string;
  readonly cue: Cue;
  /** Everything that was read, by path. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly take: Take;
  /** The names of the notes on its sheet. */
  readonly ids: SheetIds;
  /** How many notes there are, those of layers too. */
  readonly notes: number;
  readonly placed: readonly Placed[];
  readonly bounds: readonly BoundGroup[];
  readonly levels: readonly Movable[];
}

/** A part, or a layer of it, on one channel. */
export interface Placed {
  /** The name of the part in the cue. */
  readonly of: string;
  readonly track: number;
  /** The paths of its map, and of those that lend to it. */
  readonly maps: readonly string[];
}

/** What the desk keeps of a cue that was compiled for its sheet. */
export function savedOf(cue: Cue, task: SheetTask, files: ReadonlyMap<string, Uint8Array>): Saved {
  const parts = task.jobs.map(({ compiled, name, layer }) => namedPart(compiled, name, layer));
  const take: Take = { song: task.song, parts, preroll: cue.preroll };
  const staffs = parts.flatMap(({ key }, index) => (task.jobs[index]?.layer === undefined ? [key] : []));
  return {
    title: escapeText(task.title),
    cue,
    files,
    take,
    notes: parts.reduce((sum, { part }) => sum + part.decided.length, 0),
    placed: task.jobs.map(({ name, compiled: { part, map } }) => ({
      of: name,
      track: part.track,
      maps: [map.file, ...map.bases].map(normalize),
    })),
    ids: sheetIds(take, staffs, noteId),
    bounds: groupsIn(cue, take, files),
    levels: levelsIn(cue, nameOf(cue.file, cue.file)),
  };
}

/** A file as it is called on the desk: from the folder of the cue. */
export function nameOf(cueFile: string, path: string): string {
  return escapeText(relative(dirname(cueFile), path));
}

/** The path of a file of the desk; undefined for a name that none has. */
export function pathOf({ files }: Saved, cueFile: string, name: string): string | undefined {
  return [...files.keys()].find((path) => nameOf(cueFile, path) === name);
}

/** A file's text, with a byte order mark where it has one. */
export function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

/** Every file of the cue that is a text. */
export function deskFiles(cueFile: string, { files, bounds, levels }: Saved): readonly DeskFile[] {
  const named = new Set([...bounds.flatMap(({ values }) => values), ...levels].map(({ file }) => file));
  return [...files].flatMap(([path, bytes]) => {
    const name = nameOf(cueFile, path);
    return named.has(name) ? [{ name, text: textOf(bytes) }] : [];
  });
}

/** The bounds of every map; those of a base that several maps rest on are one group, with all who are played by them. */
function groupsIn(cue: Cue, { parts }: Take, files: ReadonlyMap<string, Uint8Array>): readonly BoundGroup[] {
  const groups = new Map<string, { file: string; parts: string[]; values: Movable[] }>();
  const seen = new Set<string>();
  for (const spelled of mapsOf(cue)) {
    const path = join(dirname(cue.file), spelled.text);
    const played = parts.filter(({ part }) => normalize(part.map.file) === path);
    const [first] = played;
    if (!first) continue;
    const chain = [path, ...first.part.map.bases.map(normalize)].flatMap((file): DeskFile[] => {
      const bytes = files.get(file);
      return bytes ? [{ name: nameOf(cue.file, file), text: textOf(bytes) }] : [];
    });
    const values = boundsIn(chain);
    const key = values[0]?.file ?? '';
    const group = groups.get(key) ?? { file: key, parts: [], values: [] };
    groups.set(key, group);
    group.parts.push(...new Set(played.map(({ name }) => escapeText(name))));
    for (const one of values) {
      if (seen.has(one.id)) continue;
      seen.add(one.id);
      group.values.push(one);
    }
  }
  return [...groups.values()].filter(({ values }) => values.length > 0);
}
