import type { Place } from '../diagnostics/index.js';
import type { ReadYaml } from './parse.js';
import type { Tree } from './tree.js';

/** A way into a document: keys of mappings and indices of lists. */
export type Path = readonly (string | number)[];

/** The place of the value at a path, or of the nearest thing above it. */
export function placeOf(yaml: ReadYaml, path: Path): Place {
  return yaml.placeAt((treesTo(yaml.root, path).at(-1) ?? yaml.root).offset);
}

/** The place of a key in the mapping at a path. */
export function placeOfKey(yaml: ReadYaml, path: Path, key: string): Place {
  const tree = treesTo(yaml.root, path).at(-1) ?? yaml.root;
  return yaml.placeAt(tree.keys.get(key) ?? tree.offset);
}

/** The values on the way to a path, from the root on; fewer where the way ends before. */
export function treesTo(root: Tree, path: Path): readonly Tree[] {
  const trees = [root];
  for (const step of path) {
    const next = trees.at(-1)?.children.get(String(step));
    if (!next) break;
    trees.push(next);
  }
  return trees;
}
