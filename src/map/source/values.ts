import type { Duration } from '../../midi/index.js';
import type { Tree } from '../../yaml/index.js';
import { parseDuration } from './duration.js';
import { parsePitch } from './pitch.js';
import type { Source } from './source.js';

/** The value of a key; undefined where it is not there. */
export function field(tree: Tree | undefined, key: string): Tree | undefined {
  return tree?.keys.has(key) ? tree.children.get(key) : undefined;
}

/** The keys and values of a mapping, in the order of the file. */
export function entries(tree: Tree | undefined): readonly (readonly [string, Tree])[] {
  return tree && tree.keys.size > 0 ? [...tree.children] : [];
}

/** The items of a list; a single value is a list of one, what is not there an empty one. */
export function listOf(tree: Tree | undefined): readonly Tree[] {
  if (!tree) return [];
  return Array.isArray(tree.data) ? [...tree.children.values()] : [tree];
}

export function text(source: Source, tree: Tree | undefined): string | undefined {
  return source.isSound(tree) && typeof tree.data === 'string' ? tree.data : undefined;
}

export function number(source: Source, tree: Tree | undefined): number | undefined {
  return source.isSound(tree) && typeof tree.data === 'number' ? tree.data : undefined;
}

/** One of several words, or the first of them where none is given. */
export function word<W extends string>(
  source: Source,
  tree: Tree | undefined,
  words: readonly [W, ...W[]],
): W {
  const given = text(source, tree);
  return words.find((one) => one === given) ?? words[0];
}

export function duration(source: Source, tree: Tree | undefined): Duration | undefined {
  const spelled = text(source, tree);
  return spelled === undefined ? undefined : parseDuration(spelled);
}

/** A pitch as a MIDI note; undefined, and a report (bad-pitch), where it is none from 0 to 127. */
export function pitch(source: Source, tree: Tree | undefined): number | undefined {
  if (!source.isSound(tree)) return undefined;
  const { data } = tree;
  if (typeof data === 'number') return data;
  if (typeof data !== 'string') return undefined;
  if (source.middleC === undefined) {
    source.leaveOut();
    return undefined;
  }
  const note = parsePitch(data, source.middleC);
  if (note === undefined)
    source.report(
      'bad-pitch',
      tree,
      `"${data}" is no MIDI note where note 60 is C${source.middleC}`,
      'notes go from 0 to 127; see that note-60 is as in the manual',
    );
  return note;
}

/** An object of the fields that are there. */
export function present<T extends object>(fields: { readonly [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}
