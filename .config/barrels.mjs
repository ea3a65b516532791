// Looks through the index files of src/ while the program is bundled: what a file imports from a folder's index comes from
// the file that has it. Otherwise a command that wants one function of a folder would read all that any command wants of it,
// since the bundler splits by files.
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';

const root = resolve('src');
/** By index file: the file and the name there of each name that it hands on. */
const known = new Map();

const source = (path) => path.replace(/\.js$/u, '.ts');
const isIndex = (path) => path.startsWith(root) && path.endsWith('/index.ts') && existsSync(path);

/** `a, type B, c as d` → [['a', 'a'], ['c', 'd']]: values alone, each with the name that it has behind `as`. */
function valuesIn(list) {
  return list
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '' && !one.startsWith('type '))
    .map((one) => one.split(' as '))
    .map(([name, other = name]) => [name, other]);
}

/** Where an index file's names come from; names that it declares itself are not among them. */
function handedOn(index) {
  const found = known.get(index) ?? new Map();
  if (known.has(index)) return found;
  known.set(index, found);
  const text = readFileSync(index, 'utf8');
  for (const [, list, from] of text.matchAll(/^export \{([^}]*)\} from '(\.[^']+)';$/gmu))
    for (const [name, other] of valuesIn(list))
      found.set(other, origin(resolve(dirname(index), source(from)), name));
  for (const [, from] of text.matchAll(/^export \* from '(\.[^']+)';$/gmu)) {
    const file = resolve(dirname(index), source(from));
    if (isIndex(file)) for (const [name, where] of handedOn(file)) found.set(name, where);
  }
  return found;
}

/** The file that has a name, looked for behind index files. */
function origin(file, name) {
  return (isIndex(file) ? handedOn(file).get(name) : undefined) ?? { file, name };
}

/** A text whose imports from index files of other folders name the files behind them. */
function lookedThrough(text, path) {
  return text.replace(/^import \{([^}]*)\} from '(\.[^']+\/index\.js)';$/gmu, (whole, list, from) => {
    const index = resolve(dirname(path), source(from));
    if (!isIndex(index)) return whole;
    return valuesIn(list)
      .map(([name, other]) => {
        const { file, name: there } = origin(index, name);
        const way = relative(dirname(path), file).replace(/\.ts$/u, '.js');
        return `import { ${there} as ${other} } from './${way}';`;
      })
      .join(' ');
  });
}

/** @param before what to put before the text of a file, by its path */
export function barrels(before = () => '') {
  return {
    name: 'barrels',
    setup: ({ onLoad }) =>
      onLoad({ filter: /\.ts$/ }, ({ path }) => {
        if (!path.startsWith(join(root, '/'))) return undefined;
        return { contents: before(path) + lookedThrough(readFileSync(path, 'utf8'), path), loader: 'ts' };
      }),
  };
}
