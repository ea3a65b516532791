import { quoted } from '../../diagnostics/index.js';
import type { Tree } from '../../yaml/index.js';
import { canonicalMark, knownMarks, plainMark } from '../marks/vocabulary.js';
import { readMeaning } from '../meaning/index.js';
import { listOf, type Source, text } from '../source/index.js';

/** Marks under the names by which they are compared; those that are not known are reported (unknown-mark). */
export function marks(source: Source, tree: Tree | undefined): readonly string[] {
  return listOf(tree)
    .map((one) => mark(source, one))
    .filter((name) => name !== undefined);
}

/** What an articulation means: marks as above, or classes and subclasses of M2-123 (unknown-mark for others). */
export function meanings(source: Source, tree: Tree | undefined): readonly string[] {
  return listOf(tree)
    .map((one) => (text(source, one)?.includes('/') ? subclass(source, one) : notated(source, one)))
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

function mark(source: Source, tree: Tree): string | undefined {
  const spelled = text(source, tree);
  if (spelled === undefined) return undefined;
  const plain = plainMark(spelled);
  if (source.names?.has(plain)) return plain;
  const canonical = canonicalMark(plain);
  if (canonical !== undefined || !source.names) return canonical;
  const near = source.near(plain, [...source.names, ...knownMarks]);
  const hint =
    near === undefined
      ? 'marks are MusicXML articulation names (staccato), playing words (pizz.) and articulations of this map'
      : `did you mean "${near}"?`;
  source.report('unknown-mark', tree, `${quoted(spelled)} is no mark that is known`, hint);
  return undefined;
}

/** A mark that an articulation means. One with an articulation's name decides by itself, so that none is suggested. */
function notated(source: Source, tree: Tree): string | undefined {
  const spelled = text(source, tree);
  if (spelled === undefined) return undefined;
  const plain = plainMark(spelled);
  if (source.names?.has(plain)) return plain;
  const canonical = canonicalMark(plain);
  if (canonical !== undefined || !source.names) return canonical;
  const near = source.near(plain, knownMarks);
  const hint =
    near === undefined
      ? 'what articulations mean are MusicXML names (staccato), playing words (pizz.), or classes of M2-123 (staccatos-and-shorts/spiccato)'
      : `did you mean "${near}"?`;
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
