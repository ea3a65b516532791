import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import { type DiagnosticCode, quoted } from '../diagnostics/index.js';

/**
 * A value of a YAML file as plain data, and where it stands. Mappings have no prototype, so that no key of a file can
 * reach one.
 */
export interface Tree {
  readonly data: unknown;
  /** Where it begins in the text. Unit: UTF-16 units, from 0. */
  readonly offset: number;
  /** The values of a mapping by their keys, of a list by their index; none for other values. */
  readonly children: ReadonlyMap<string, Tree>;
  /** Where the keys of a mapping begin. */
  readonly keys: ReadonlyMap<string, number>;
  /** How many values it has in it, itself and what aliases stand for among them. */
  readonly size: number;
}

/** Tells of something wrong at an offset of the text. */
export type Report = (code: DiagnosticCode, offset: number, message: string, hint: string) => void;

/** How many values aliases may stand for in one file, all together. */
const maxByAlias = 10_000;

const none: ReadonlyMap<string, never> = new Map<string, never>();

interface Growing {
  readonly report: Report;
  /** What each anchor stands for; undefined while that is still being read. */
  readonly anchors: Map<string, Tree | undefined>;
  byAlias: number;
}

/**
 * The tree of a composed document. Reports keys that stand twice (the first counts), keys that are no plain names, and
 * aliases that stand for nothing, for themselves, or for too much; undefined after one of the latter two.
 */
export function growTree(contents: unknown, report: Report): Tree | undefined {
  const growing: Growing = { report, anchors: new Map(), byAlias: 0 };
  const tree = grow(contents, 0, growing);
  return growing.byAlias > maxByAlias ? undefined : tree;
}

function grow(node: unknown, fallback: number, growing: Growing): Tree {
  const offset = offsetOf(node, fallback);
  if (isAlias(node)) return follow(node.source, offset, growing);
  const anchor = isScalar(node) || isMap(node) || isSeq(node) ? node.anchor : undefined;
  if (anchor !== undefined) growing.anchors.set(anchor, undefined);
  const tree = isMap(node)
    ? growMapping(node.items, offset, growing)
    : isSeq(node)
      ? growList(node.items, offset, growing)
      : leaf(isScalar(node) ? node.value : null, offset);
  if (anchor !== undefined) growing.anchors.set(anchor, tree);
  return tree;
}

/** What an alias stands for. It is not copied, so that aliases of aliases cost nothing here; but it is counted. */
function follow(name: string, offset: number, growing: Growing): Tree {
  const { anchors, report } = growing;
  const tree = anchors.get(name);
  if (tree === undefined) {
    const [code, message, hint] = anchors.has(name)
      ? (['yaml-alias', `*${name} stands inside what it stands for`, 'write it out'] as const)
      : ([
          'yaml-syntax',
          `*${name} stands for nothing`,
          `mark what it is to stand for with &${name}, further up`,
        ] as const);
    report(code, offset, message, hint);
    return leaf(null, offset);
  }
  const before = growing.byAlias;
  growing.byAlias += tree.size;
  if (before <= maxByAlias && growing.byAlias > maxByAlias)
    report(
      'yaml-alias',
      offset,
      `the aliases up to here stand for more than ${maxByAlias} values`,
      'write out what is meant',
    );
  return tree;
}

function growMapping(
  pairs: readonly { key: unknown; value: unknown }[],
  offset: number,
  growing: Growing,
): Tree {
  const data: Record<string, unknown> = Object.create(null);
  const children = new Map<string, Tree>();
  const keys = new Map<string, number>();
  const again = new Map<string, { readonly offset: number; times: number }>();
  let size = 1;
  for (const pair of pairs) {
    const at = offsetOf(pair.key, offset);
    const key = keyOf(pair.key, at, growing);
    const value = grow(pair.value, at, growing);
    if (key === undefined) continue;
    const repeated = again.get(key);
    if (repeated) repeated.times += 1;
    else if (keys.has(key)) again.set(key, { offset: at, times: 2 });
    if (keys.has(key)) continue;
    data[key] = value.data;
    children.set(key, value);
    keys.set(key, at);
    size += value.size;
  }
  for (const [key, { offset: at, times }] of again) {
    const often = times === 2 ? 'twice' : `${times} times`;
    growing.report(
      'yaml-duplicate-key',
      at,
      `the key ${quoted(key)} stands ${often} in one mapping`,
      'keep one of them',
    );
  }
  return { data, offset, children, keys, size };
}

function growList(items: readonly unknown[], offset: number, growing: Growing): Tree {
  const trees = items.map((item) => grow(item, offset, growing));
  return {
    data: trees.map(({ data }) => data),
    offset,
    children: new Map(trees.map((tree, index) => [String(index), tree])),
    keys: none,
    size: trees.reduce((size, tree) => size + tree.size, 1),
  };
}

function leaf(data: unknown, offset: number): Tree {
  return { data, offset, children: none, keys: none, size: 1 };
}

/** A key as it is written; undefined, and a report, for a mapping or a list in a key's place. */
function keyOf(node: unknown, offset: number, growing: Growing): string | undefined {
  const { data } =
    isScalar(node) && typeof node.value !== 'string'
      ? leaf(node.source ?? '', offset)
      : grow(node, offset, growing);
  if (typeof data !== 'object') return String(data);
  if (data === null) return '';
  growing.report(
    'yaml-syntax',
    offset,
    'a mapping or a list stands where a key should',
    'a key is a plain name',
  );
  return undefined;
}

function offsetOf(node: unknown, fallback: number): number {
  return (
    (isAlias(node) || isScalar(node) || isMap(node) || isSeq(node) ? node.range?.[0] : undefined) ?? fallback
  );
}
