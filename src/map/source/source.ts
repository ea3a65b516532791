import { type Diagnostic, type DiagnosticCode, diagnostic, nearest } from '../../diagnostics/index.js';
import { placeOfKey, type ReadYaml, type Tree } from '../../yaml/index.js';

/**
 * What a map is built from: a document that the schema has judged. What is faulty in it is left out of the map or
 * stands in for itself with a default, so that everything else can still be checked; what was built from it is held
 * as doubtful.
 */
export interface Source {
  readonly yaml: ReadYaml;
  /** The names of the map's articulations; undefined where they cannot be told. */
  readonly names: ReadonlySet<string> | undefined;
  /** The octave printed for MIDI note 60; undefined where that cannot be told. */
  readonly middleC: 3 | 4 | 5 | undefined;
  /** Whether a value is there and as the schema wants it. */
  isSound(tree: Tree | undefined): tree is Tree;
  /** An error found while building. */
  report(code: DiagnosticCode, tree: Tree, message: string, hint: string): void;
  /** Notes that something cannot be told, because of what is wrong elsewhere. */
  leaveOut(): void;
  /** Builds a part of the map; the part is doubtful where its text is faulty, or something in it was reported or left out. */
  build<T extends object>(tree: Tree | undefined, make: () => T): T;
  /** Whether a part of the map is what its text means. */
  isSure(part: object): boolean;
  /** The name that is most likely meant. */
  near(name: string, candidates: Iterable<string>): string | undefined;
}

/** Looking for the nearest names ends after this many comparisons, so that a file full of wrong names is answered too. */
const maxComparisons = 100_000;

export function sourceOf(yaml: ReadYaml, faulty: ReadonlySet<Tree>, diagnostics: Diagnostic[]): Source {
  const { children } = yaml.root;
  const articulations = children.get('articulations')?.keys;
  const note60 = children.get('note-60')?.data;
  const octave =
    typeof note60 === 'string' && note60.length === 2 && note60[0] === 'C' ? Number(note60[1]) : undefined;
  const doubtful = new Set<object>();
  const found = new Map<string, string | undefined>();
  let comparisons = 0;
  let leftOut = 0;
  return {
    yaml,
    names: articulations && articulations.size > 0 ? new Set(articulations.keys()) : undefined,
    middleC: octave === 3 || octave === 4 || octave === 5 ? octave : undefined,
    isSound: (tree): tree is Tree => tree !== undefined && !faulty.has(tree),
    report: (code, tree, message, hint) =>
      void diagnostics.push(diagnostic(code, yaml.placeAt(tree.offset), message, hint)),
    leaveOut: () => {
      leftOut += 1;
    },
    build: (tree, make) => {
      const before = diagnostics.length + leftOut;
      const part = make();
      if (tree === undefined || faulty.has(tree) || diagnostics.length + leftOut > before) doubtful.add(part);
      return part;
    },
    isSure: (part) => !doubtful.has(part),
    near: (name, candidates) => {
      if (found.has(name) || comparisons > maxComparisons) return found.get(name);
      const names = [...candidates];
      comparisons += names.length;
      const near = nearest(name, names);
      found.set(name, near);
      return near;
    },
  };
}

/** The place of an articulation's name. */
export function placeOfName({ yaml }: Source, name: string) {
  return placeOfKey(yaml, ['articulations'], name);
}
