import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import type { ReadYaml, Tree } from '../../yaml/index.js';

/**
 * A map in which words that the format had before stand for those that it has now, and a warning for each. They meant
 * much the same, so that a map that was written with them is not lost; the schema does not know them.
 */
export function withNewWords(yaml: ReadYaml): {
  readonly yaml: ReadYaml;
  readonly diagnostics: readonly Diagnostic[];
} {
  const diagnostics: Diagnostic[] = [];
  const tell = (offset: number, old: string, now: string) => {
    const hint = `write ${now} in its place; it is read as that`;
    diagnostics.push(
      diagnostic('old-word', yaml.placeAt(offset), `${quoted(old)} is called ${now} now`, hint),
    );
  };
  const root = within(
    renamed(yaml.root, 'hysteresis', 'steadiness', tell),
    'articulations',
    (articulations) =>
      inEach(articulations, (articulation) =>
        within(articulation, 'switch', (messages) =>
          messages.keys.size > 0
            ? renamed(messages, 'group', 'aspect', tell)
            : inEach(messages, (message) => renamed(message, 'group', 'aspect', tell)),
        ),
      ),
  );
  return { yaml: root === yaml.root ? yaml : { ...yaml, root }, diagnostics };
}

/** A mapping with one of its keys under another name, where it has the one and not the other. */
function renamed(
  tree: Tree,
  old: string,
  now: string,
  tell: (offset: number, old: string, now: string) => void,
): Tree {
  const value = tree.children.get(old);
  const offset = tree.keys.get(old);
  if (!value || offset === undefined || tree.keys.has(now)) return tree;
  tell(offset, old, now);
  const name = (key: string) => (key === old ? now : key);
  const children = new Map([...tree.children].map(([key, child]) => [name(key), child]));
  const keys = new Map([...tree.keys].map(([key, at]) => [name(key), at]));
  return { ...tree, data: dataOf(tree, children), children, keys };
}

/** A tree with one of its values as it is made of it. */
function within(tree: Tree, key: string, make: (child: Tree) => Tree): Tree {
  const child = tree.children.get(key);
  const made = child && make(child);
  if (!child || !made || made === child) return tree;
  const children = new Map(tree.children).set(key, made);
  return { ...tree, data: dataOf(tree, children), children };
}

function inEach(tree: Tree, make: (child: Tree) => Tree): Tree {
  return [...tree.children.keys()].reduce((whole, key) => within(whole, key, make), tree);
}

/** The plain data of a tree with other children. */
function dataOf(tree: Tree, children: ReadonlyMap<string, Tree>): unknown {
  if (Array.isArray(tree.data)) return [...children.values()].map(({ data }) => data);
  const data: Record<string, unknown> = Object.create(null);
  for (const [key, child] of children) data[key] = child.data;
  return data;
}
