import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  type Node,
  type Pair,
  type YAMLMap,
} from 'yaml';

/** Where a value stands: keys of mappings and indices (from 0) of lists, from the top. */
export type YamlPath = readonly (string | number)[];

/** Text that takes the place of other text. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Why a value cannot be put in its place. */
export type Refused = 'not-there' | 'alias' | 'shape';

/**
 * The change of text that gives a key its value, and touches nothing else: the old value is replaced where it stands, a
 * new key is put behind its neighbours.
 *
 * @param path of keys and indices; all but the last have to be there
 * @param behind keys of neighbours behind which a new one is put, the best first; behind the last one else
 */
export function spliceFor(
  document: Pick<Document, 'contents' | 'getIn'>,
  source: string,
  path: YamlPath,
  text: string,
  behind: readonly string[] = [],
): Splice | Refused {
  const key = path.at(-1);
  const parent: unknown = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (key === undefined || parent === undefined) return 'not-there';
  if (isScalar(parent) && parent.value === null) return filling(document, source, path, text);
  if (typeof key === 'number' || !isMap(parent)) return isAlias(parent) ? 'alias' : 'shape';
  const pair = parent.items.find((item) => isScalar(item.key) && item.key.value === key);
  return pair ? replacing(pair, source, text) : adding(parent, source, key, text, behind);
}

function replacing(pair: Pair, source: string, text: string): Splice | Refused {
  const { key, value } = pair;
  const old = value as Node | null;
  if (isScalar(old) && old.value === null && old.range && old.range[0] === old.range[1])
    return {
      from: old.range[0],
      to: old.range[0],
      text: source[old.range[0] - 1] === ' ' ? text : ` ${text}`,
    };
  if (!isNode(old) || !old.range || !isScalar(key)) return 'shape';
  return { from: old.range[0], to: contentEnd(old), text };
}

/** `name:` without a value becomes `name: { key: text }`. */
function filling(
  document: Pick<Document, 'contents' | 'getIn'>,
  source: string,
  path: YamlPath,
  text: string,
): Splice | Refused {
  const inner = `{ ${path.at(-1)}: ${text} }`;
  return path.length < 2 ? 'shape' : spliceFor(document, source, path.slice(0, -1), inner);
}

function adding(
  map: YAMLMap,
  source: string,
  key: string,
  text: string,
  behind: readonly string[],
): Splice | Refused {
  const [first] = map.items;
  if (!map.range) return 'shape';
  if (map.flow === true) return addingInFlow(map, source, `${key}: ${text}`);
  const firstKey = first?.key;
  if (!isScalar(firstKey) || !firstKey.range) return 'shape';
  const start = firstKey.range[0];
  const indent = ' '.repeat(start - (source.lastIndexOf('\n', start - 1) + 1));
  const newline = source.includes('\r\n') ? '\r\n' : '\n';
  const end = lineEndBehind(neighbours(map, behind), source);
  if (end === undefined) return { from: start, to: start, text: `${key}: ${text}${newline}${indent}` };
  return { from: end, to: end, text: `${newline}${indent}${key}: ${text}` };
}

function addingInFlow(map: YAMLMap, source: string, entry: string): Splice | Refused {
  const last = map.items.at(-1);
  if (!map.range) return 'shape';
  if (!last) return { from: map.range[0], to: map.range[1], text: `{ ${entry} }` };
  const node = (last.value ?? last.key) as Node;
  const end = contentEnd(node);
  return source.slice(end, map.range[1]).includes('#') ? 'shape' : { from: end, to: end, text: `, ${entry}` };
}

/** Pairs behind which a new one may stand, the best first. */
function neighbours(map: YAMLMap, behind: readonly string[]): readonly Pair[] {
  const named = behind.flatMap((name) => map.items.filter(({ key }) => isScalar(key) && key.value === name));
  return [...named, ...map.items.toReversed()];
}

/** The end of the line of the first pair whose value ends on a line of its own, comment included. */
function lineEndBehind(pairs: readonly Pair[], source: string): number | undefined {
  for (const { value } of pairs) {
    if (!isNode(value) || !value.range) continue;
    if (
      isCollection(value) ? value.flow !== true : !isScalar(value) || String(value.type).startsWith('BLOCK')
    )
      continue;
    const rest = /^[^\S\n]*(?:#[^\n]*)?(?=\r?\n|$)/u.exec(source.slice(value.range[1]));
    if (rest) return value.range[1] + rest[0].replace(/\r$/u, '').length;
  }
  return undefined;
}

/** Where a value's own text ends: comments and blank lines behind a block are not of it. */
function contentEnd(node: Node): number {
  if (isCollection(node) && node.flow !== true) {
    const last = node.items.at(-1);
    const inner: unknown = isPair(last) ? (last.value ?? last.key) : last;
    if (isNode(inner)) return contentEnd(inner);
  }
  return node.range?.[1] ?? 0;
}
