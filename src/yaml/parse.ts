import { Composer, type Document, LineCounter, Parser, YAMLParseError } from 'yaml';
import {
  type Diagnostic,
  type DiagnosticCode,
  diagnostic,
  type Outcome,
  type Place,
} from '../diagnostics/index.js';
import { mergeConflicts } from './conflict.js';
import { decodeText } from './decode.js';
import { deepest, tooDeepAt } from './nesting.js';
import { syntaxProblems } from './syntax.js';
import { growTree, type Tree } from './tree.js';

/** A YAML document as data, with the places of its keys and values. */
export interface ReadYaml {
  readonly file: string;
  /** Its data is null where there is nothing in the file. */
  readonly root: Tree;
  /** The place of an offset in the text. */
  placeAt(offset: number): Place;
}

/**
 * Reads one document of YAML 1.2 (core schema). Nothing is thrown: what is wrong becomes diagnostics (yaml-syntax,
 * yaml-duplicate-key, yaml-alias, merge-conflict). Keys that stand twice are reported beside a value.
 */
export function parseYaml(bytes: Uint8Array, file: string): Outcome<ReadYaml> {
  const text = decodeText(bytes, file);
  if (typeof text !== 'string') return { value: undefined, diagnostics: [text] };
  const conflicts = mergeConflicts(text, file);
  if (conflicts.length > 0) return { value: undefined, diagnostics: conflicts };
  const lines = new LineCounter();
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { kind: 'text', file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  const diagnostics: Diagnostic[] = [];
  const report = (code: DiagnosticCode, offset: number, message: string, hint: string) =>
    void diagnostics.push(diagnostic(code, placeAt(offset), message, hint));

  const tokens = [...new Parser(lines.addNewLine).parse(text)];
  const deep = tooDeepAt(tokens);
  if (deep !== undefined) {
    report(
      'yaml-syntax',
      deep,
      `it is nested more than ${deepest} levels deep`,
      'no file needs that; see that every bracket is closed',
    );
    return { value: undefined, diagnostics };
  }
  const { document, errors } = compose(tokens, text);
  if (errors.length > 0) return { value: undefined, diagnostics: syntaxProblems(errors, text, file, lines) };
  const root = growTree(document?.contents, report);
  return { value: root && { file, root, placeAt }, diagnostics };
}

/**
 * The first document of a text. Keys are compared by growTree: the composer would compare each with each, and a
 * version directive does not bring back the rules of YAML 1.1.
 */
function compose(
  tokens: ReturnType<Parser['parse']> extends Iterable<infer T> ? readonly T[] : never,
  text: string,
) {
  const composer = new Composer({ uniqueKeys: false, schema: 'core' });
  const [document, second] = withoutTraces((): readonly Document.Parsed[] => [
    ...composer.compose(tokens, true, text.length),
  ]);
  const errors = [...(document?.errors ?? []), ...(document?.warnings ?? [])];
  if (second) errors.push(new YAMLParseError([second.range[0], second.range[1]], 'MULTIPLE_DOCS', ''));
  return { document, errors: errors.sort((a, b) => a.pos[0] - b.pos[0]) };
}

/** Where a text has very many errors, what takes long is to write down for each where in this program it was made. */
function withoutTraces<T>(act: () => T): T {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return act();
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

/** A file as a whole. */
export function wholeFile(file: string): Place {
  return { kind: 'file', file };
}
