import { type Diagnostic, type DiagnosticCode, diagnostic, quoted } from '../../diagnostics/index.js';
import { parseYaml, type ReadYaml, type Tree } from '../../yaml/index.js';
import { strayPath } from '../source/index.js';
import { lent, shifted } from './lend.js';

/** How many maps may stand behind each other: the most links of a chain. */
export const mostLinks = 8;

/** The bytes of a file that lends to a map, or why there are none. */
export type BaseText =
  | Uint8Array
  | { readonly code: DiagnosticCode; readonly problem: string; readonly hint?: string };

/** The files that lend to a map; whoever reads the map has read them. */
export interface Bases {
  /** What stands before a path from the map's folder to name the file: `maps/`; empty for the current folder. */
  readonly folder: string;
  /** By their paths from the map's folder. */
  readonly texts: ReadonlyMap<string, BaseText>;
}

export const noBases: Bases = { folder: '', texts: new Map() };

/** The path from a map's folder of the file that one of its chain names as `base`; undefined where it names none. */
export function baseNamed(bytes: Uint8Array, from = ''): string | undefined {
  // Most maps name none: a text without the word, and without an escape that might spell it, is not parsed for it.
  if (!/base|\\/u.test(new TextDecoder('latin1').decode(bytes))) return undefined;
  const spelled = parseYaml(bytes, '').value?.root.children.get('base')?.data;
  return typeof spelled === 'string' && strayPath(spelled) === undefined ? pathOf(from, spelled) : undefined;
}

/** A path that a file names, from the map's folder as that file's own path is. */
function pathOf(from: string, spelled: string): string {
  const steps = [...from.split('/').slice(0, -1), ...spelled.split('/')];
  const path: string[] = [];
  for (const step of steps) {
    if (step === '..') path.pop();
    else if (step !== '.' && step !== '') path.push(step);
  }
  return path.join('/');
}

/** A map with all that is lent to it: one tree, whose places are in the files that they come from. */
export interface Whole {
  readonly yaml: ReadYaml;
  /** The files of the chain, the map's own left out. */
  readonly bases: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/** One file of a chain, and where its offsets begin in the whole. */
interface Link {
  readonly yaml: ReadYaml;
  /** From the map's folder; undefined for the map itself, whose name is not known here. */
  readonly path: string | undefined;
  readonly begin: number;
}

/**
 * Puts a map together with the chain of its bases: what a map does not say is taken from its base; articulations and
 * levels of dynamics by name. Errors: path-outside, cannot-read, base-chain, and those of YAML.
 *
 * @param own the map's own file from its folder, where it is known: naming it again is a circle
 */
export function withBases(map: ReadYaml, length: number, { folder, texts }: Bases, own?: string): Whole {
  const diagnostics: Diagnostic[] = [];
  const links: Link[] = [{ yaml: map, path: own, begin: 0 }];
  let root = map.root;
  let begin = length + 1;
  for (let last = links[0]; last; ) {
    const next = follow(last, links, texts);
    if (!next) break;
    if ('problem' in next) {
      diagnostics.push(next.problem);
      break;
    }
    const { value: yaml, diagnostics: found } = parseYaml(next.bytes, `${folder}${next.path}`);
    diagnostics.push(...found);
    if (!yaml) break;
    if (yaml.root.keys.size === 0) {
      diagnostics.push(
        told(last, 'cannot-read', `the base ${quoted(next.path)} is no map`, 'name a map file'),
      );
      break;
    }
    last = { yaml, path: next.path, begin };
    links.push(last);
    root = lent(root, shifted(yaml.root, begin));
    begin += next.bytes.length + 1;
  }
  const placeAt: ReadYaml['placeAt'] = (offset) => {
    const link = links.findLast((one) => one.begin <= offset) ?? { yaml: map, begin: 0 };
    return link.yaml.placeAt(offset - link.begin);
  };
  const bases = links.slice(1).map(({ yaml }) => yaml.file);
  return { yaml: { file: map.file, root, placeAt }, bases, diagnostics };
}

type Next = { readonly path: string; readonly bytes: Uint8Array } | { readonly problem: Diagnostic };

/** The file that a link of the chain names; undefined where it names none. */
function follow(link: Link, links: readonly Link[], texts: Bases['texts']): Next | undefined {
  const tree = baseOf(link);
  if (!tree) return undefined;
  const { data } = tree;
  // The map's own is judged by the schema.
  if (typeof data !== 'string')
    return links.length === 1
      ? undefined
      : { problem: told(link, 'wrong-type', 'base must be the path of a map', 'write a text') };
  const stray = strayPath(data);
  if (stray !== undefined)
    return {
      problem: told(
        link,
        'path-outside',
        `the base ${quoted(data)} does not stay in the folder of the map: ${stray}`,
        'a base stands in the folder of the map that names it, or below',
      ),
    };
  const path = pathOf(link.path ?? '', data);
  if (links.some((one) => one.path === path))
    return {
      problem: told(
        link,
        'base-chain',
        `the base ${quoted(data)} rests on this map again: a circle`,
        'take one of the two lines out',
      ),
    };
  if (links.length > mostLinks)
    return {
      problem: told(
        link,
        'base-chain',
        `more than ${mostLinks} maps stand behind each other here`,
        `a chain of bases has at most ${mostLinks} links`,
      ),
    };
  const text = texts.get(path);
  if (text instanceof Uint8Array) return { path, bytes: text };
  const { code, problem, hint } = text ?? ({ code: 'cannot-read', problem: 'it was not given' } as const);
  return {
    problem: told(
      link,
      code,
      `the base ${quoted(data)} cannot be read: ${problem}`,
      hint ?? 'a base is named by its path from the folder of the map that names it',
    ),
  };
}

function baseOf({ yaml: { root } }: Link): Tree | undefined {
  return root.keys.has('base') ? root.children.get('base') : undefined;
}

function told(link: Link, code: DiagnosticCode, message: string, hint: string): Diagnostic {
  return diagnostic(code, link.yaml.placeAt(baseOf(link)?.offset ?? 0), message, hint);
}

/** The map's own path from its folder, if its name has one. */
export function ownPath(file: string, { folder }: Bases): string | undefined {
  return file.startsWith(folder) ? file.slice(folder.length) : undefined;
}
