import { isScalar } from 'yaml';
import { edited, type NotEdited, openYaml, type YamlPath } from '../yaml/index.js';

/** A part of a cue, or a layer of it, by their places in the lists of the file, from 0. */
export interface MapOwner {
  readonly part: number;
  readonly layer?: number;
}

/**
 * A cue's text with another map for a part or a layer; every other character stays. What cannot be written without
 * changing something else is refused.
 *
 * @param text of a cue that was read without errors
 * @param path from the cue's folder
 */
export function cueTextWithMap(
  text: string,
  { part, layer }: MapOwner,
  path: string,
): { readonly text: string } | { readonly refused: NotEdited } {
  const at: YamlPath = ['parts', part, ...(layer === undefined ? [] : ['layers', layer]), 'map'];
  const before = openYaml(text);
  const old: unknown = before.document.getIn(at, true);
  const style = isScalar(old) ? old.type : undefined;
  const spellings =
    style === 'QUOTE_SINGLE' ? [singleQuoted(path)] : style === 'QUOTE_DOUBLE' ? [] : plain(path);
  let result: ReturnType<typeof edited> = { refused: 'shape' };
  for (const spelled of [...spellings, JSON.stringify(path)]) {
    result = edited(before, { path: at, text: spelled, value: path });
    if ('document' in result) return { text: result.text };
  }
  return result;
}

/** A path that YAML takes without quotes, in a line of its own and between brackets. */
function plain(path: string): readonly string[] {
  return /^[\w./][\w./ -]*$/u.test(path) && path.trim() === path ? [path] : [];
}

function singleQuoted(path: string): string {
  return `'${path.replaceAll("'", "''")}'`;
}
