import { quoted } from '../../diagnostics/index.js';
import type { Tree } from '../../yaml/index.js';
import { canonicalMark, knownMarks, plainMark } from '../marks/vocabulary.js';
import { readMeaning } from '../meaning/index.js';
import { listOf, type Source, text } from '../source/index.js';

/** Marks under the names by which they are compared; those that are not known are reported (unknown-mark). */
export function marks(source: Source, tree: Tree | undefined): readonly string[] {
  return listOf(tree)
    .map((one) => mark(source, one, ofRules))
    .filter((name) => name !== undefined);
}

/** What an articulation means: marks as above, or classes and subclasses of M2-123 (unknown-mark for others). */
export function meanings(source: Source, tree: Tree | undefined): readonly string[] {
  return listOf(tree)
    .map((one) => (text(source, one)?.includes('/') ? subclass(source, one) : mark(source, one, ofMeanings)))
    .filter((name) => name !== undefined);
}

function subclass(source: Source, tree: Tree): string | undefined {
  const plain = plainMark(text(source, tree) ?? '');
  const read = readMeaning(plain);
  if (read.kind !== 'unknown') return plain;
  const near = source.near(plain, read.names);
  source.report(
    'unknown-mark',
    tree,
    `${quoted(plain)} is no class and subclass of M2-123`,
    near === undefined
      ? 'write both by their printed names: staccatos-and-shorts/spiccato'
      : `did you mean "${near}"?`,
  );
  return undefined;
}

/** What is said of a name that is no mark: which others are near, and what would be right where none is. */
interface MarkHints {
  readonly suggested: (source: Source) => Iterable<string>;
  readonly otherwise: string;
}

const ofRules: MarkHints = {
  suggested: ({ names }) => [...(names ?? []), ...knownMarks],
  otherwise:
    'marks are MusicXML articulation names (staccato), playing words (pizz.) and articulations of this map',
};

/** What an articulation means: a mark with an articulation's name decides by itself, so that none is suggested. */
const ofMeanings: MarkHints = {
  suggested: () => knownMarks,
  otherwise:
    'what articulations mean are MusicXML names (staccato), playing words (pizz.), or classes of M2-123 (staccatos-and-shorts/spiccato)',
};

function mark(source: Source, tree: Tree, { suggested, otherwise }: MarkHints): string | undefined {
  const spelled = text(source, tree);
  if (spelled === undefined) return undefined;
  const plain = plainMark(spelled);
  if (source.names?.has(plain)) return plain;
  const canonical = canonicalMark(plain);
  if (canonical !== undefined || !source.names) return canonical;
  const near = source.near(plain, suggested(source));
  const hint = near === undefined ? otherwise : `did you mean "${near}"?`;
  source.report('unknown-mark', tree, `${quoted(spelled)} is no mark that is known`, hint);
  return undefined;
}

/** The name of an articulation of the map; a report (unknown-articulation) where it is none. */
export function articulationName(source: Source, tree: Tree | undefined): string {
  const name = text(source, tree) ?? '';
  const { names } = source;
  if (!tree || !names || names.has(name) || !source.isSound(tree)) return name;
  const near = source.near(name, names);
  const all = [...names];
  const hint =
    near === undefined
      ? `this map has ${all.slice(0, 20).join(', ')}${all.length > 20 ? ', …' : ''}`
      : `did you mean "${near}"?`;
  source.report('unknown-articulation', tree, `${quoted(name)} is no articulation of this map`, hint);
  return name;
}
