import { type Node, type Pair, isAlias, isMap, isPair, isScalar, isSeq } from 'yaml';
import type { Place } from '../../model/diagnostic.js';
import type { ReadYaml } from './parse.js';

/** A way into a document: keys of mappings and indices of lists. */
export type Path = readonly (string | number)[];

/** The place of the value at a path, or of the nearest thing above it. */
export function placeOf(yaml: ReadYaml, path: Path): Place {
  return placeAt(yaml, find(yaml, path).value);
}

/** The place of a key in the mapping at a path. */
export function placeOfKey(yaml: ReadYaml, path: Path, key: string): Place {
  const { pair } = find(yaml, [...path, key]);
  return pair ? placeAt(yaml, pair.key) : placeOf(yaml, path);
}

function placeAt({ file, lines }: ReadYaml, node: unknown): Place {
  const range = typeof node === 'object' && node !== null && 'range' in node ? (node as Node).range : undefined;
  if (!range) return { kind: 'text', file, line: 1, column: 1 };
  const { line, col } = lines.linePos(range[0]);
  return { kind: 'text', file, line: Math.max(1, line), column: Math.max(1, col) };
}

function find(yaml: ReadYaml, path: Path): { readonly value: unknown; readonly pair: Pair | undefined } {
  let value: unknown = yaml.document.contents;
  let pair: Pair | undefined;
  for (const step of path) {
    if (isAlias(value)) value = value.resolve(yaml.document);
    pair = undefined;
    let next: unknown;
    if (isMap(value)) {
      pair = value.items.find((item) => isPair(item) && keyText(item) === String(step));
      next = pair?.value;
    } else if (isSeq(value)) next = value.items[Number(step)];
    if (next === undefined || next === null) break;
    value = next;
  }
  return { value, pair };
}

function keyText({ key }: Pair): string {
  return isScalar(key) ? String(key.value) : String(key);
}
