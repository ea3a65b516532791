import type { Tree } from '../../yaml/index.js';

/** A tree with other offsets. What stands in it several times, by aliases, is still one. */
export function shifted(tree: Tree, by: number): Tree {
  const known = new Map<Tree, Tree>();
  const shift = (one: Tree): Tree => {
    const done = known.get(one);
    if (done) return done;
    const made: Tree = {
      ...one,
      offset: one.offset + by,
      children: new Map([...one.children].map(([key, child]) => [key, shift(child)])),
      keys: new Map([...one.keys].map(([key, at]) => [key, at + by])),
    };
    known.set(one, made);
    return made;
  };
  return shift(tree);
}

/**
 * A map with what its base lends it: the keys that it does not have; articulations by name, each as a whole; the
 * controller of its dynamics, and levels by name. What the base itself rests on is none of the map's keys.
 */
export function lent(own: Tree, base: Tree): Tree {
  if (own.keys.size === 0) return own;
  const dynamics = both(own, base, 'dynamics', (mine, theirs) => {
    const levels = both(mine, theirs, 'levels', joined);
    return withChild(joined(mine, theirs), 'levels', levels);
  });
  const articulations = both(own, base, 'articulations', (mine, theirs) => joined(mine, theirs));
  return withChild(
    withChild(joined(own, base, 'base'), 'dynamics', dynamics),
    'articulations',
    articulations,
  );
}

/** Two values of a key put together, where both are mappings; undefined where the usual one stays. */
function both(own: Tree, base: Tree, key: string, join: (own: Tree, base: Tree) => Tree): Tree | undefined {
  const [mine, theirs] = [own.children.get(key), base.children.get(key)];
  return mine && theirs && mine.keys.size > 0 && theirs.keys.size > 0 ? join(mine, theirs) : undefined;
}

/** The base's keys in their order, each with the own value where there is one, then the own keys that it lacks. */
function joined(own: Tree, base: Tree, ...except: readonly string[]): Tree {
  const keys = new Map<string, number>();
  const children = new Map<string, Tree>();
  for (const from of [base, own])
    for (const [key, child] of from.children) {
      if (from === base && except.includes(key)) continue;
      keys.set(key, from.keys.get(key) ?? child.offset);
      children.set(key, child);
    }
  return madeOf(own, keys, children);
}

function withChild(tree: Tree, key: string, child: Tree | undefined): Tree {
  return child ? madeOf(tree, tree.keys, new Map([...tree.children, [key, child]])) : tree;
}

function madeOf(
  { offset }: Tree,
  keys: ReadonlyMap<string, number>,
  children: ReadonlyMap<string, Tree>,
): Tree {
  const data: Record<string, unknown> = Object.create(null);
  let size = 1;
  for (const [key, child] of children) {
    data[key] = child.data;
    size += child.size;
  }
  return { data, offset, keys, children, size };
}
