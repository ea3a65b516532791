import { type Document, LineCounter, type YAMLError, parseDocument } from 'yaml';
import type { DiagnosticCode } from '../../diagnose/codes.js';
import type { Diagnostic, Place } from '../../model/diagnostic.js';

/** A YAML document as plain data, with the places of its keys and values. */
export interface ReadYaml {
  readonly file: string;
  readonly document: Document;
  readonly lines: LineCounter;
  readonly data: unknown;
}

/** Deeper nesting than any map has; deeper files are refused before they are parsed. */
const deepest = 64;

/** How many aliases may stand for one another's content before they count as endless. */
const mostAliases = 100;

/** Reads YAML 1.2. Nothing is thrown: what is wrong becomes diagnostics. */
export function parseYaml(bytes: Uint8Array, file: string): ReadYaml | readonly Diagnostic[] {
  const text = decode(bytes, file);
  if (typeof text !== 'string') return [text];
  const tooDeep = nestingProblem(text, file);
  if (tooDeep) return [tooDeep];
  const lines = new LineCounter();
  try {
    const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
    if (document.errors.length > 0) return document.errors.map((error) => syntaxProblem(error, text, file, lines));
    return { file, document, lines, data: document.toJS({ maxAliasCount: mostAliases }) as unknown };
  } catch (error) {
    const isAlias = error instanceof ReferenceError;
    const message = isAlias ? 'its aliases unfold without end' : 'it is nested too deeply to be read';
    return [problem(isAlias ? 'yaml-alias' : 'yaml-syntax', wholeFile(file), message, 'write out what the aliases stand for')];
  }
}

/** UTF-8, with or without a byte order mark. */
function decode(bytes: Uint8Array, file: string): string | Diagnostic {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const good = new TextDecoder().decode(bytes).split('\ufffd')[0] ?? '';
    const line = good.split('\n').length;
    const column = good.length - good.lastIndexOf('\n');
    return problem('yaml-syntax', { kind: 'text', file, line, column }, 'there are bytes that are no UTF-8 text', 'save the file as UTF-8');
  }
}

/** The parser works by recursion; a quick count of brackets and of deepening lines keeps absurd files from it. */
function nestingProblem(text: string, file: string): Diagnostic | undefined {
  let depth = 0;
  let line = 1;
  let lineStart = 0;
  for (let at = 0; at < text.length; at++) {
    const character = text[at];
    if (character === '\n') {
      line += 1;
      lineStart = at + 1;
      const dashes = /^(?:[ ]*[-?:][ ]){1,200}/u.exec(text.slice(lineStart, lineStart + 800))?.[0] ?? '';
      if ((dashes.match(/[-?:]/gu)?.length ?? 0) > deepest) return deep(file, line, 1);
    } else if (character === '[' || character === '{') depth += 1;
    else if ((character === ']' || character === '}') && depth > 0) depth -= 1;
    if (depth > deepest) return deep(file, line, at - lineStart + 1);
  }
  return undefined;
}

function deep(file: string, line: number, column: number): Diagnostic {
  return problem('yaml-syntax', { kind: 'text', file, line, column }, `it is nested more than ${deepest} levels deep`, 'no map needs that; see that every bracket is closed');
}

function syntaxProblem(error: YAMLError, text: string, file: string, lines: LineCounter): Diagnostic {
  const [offset] = error.pos;
  const { line, col } = lines.linePos(offset);
  const place: Place = { kind: 'text', file, line, column: Math.max(1, col) };
  if (error.code === 'DUPLICATE_KEY') {
    const key = /^[^:\n]{1,80}/u.exec(text.slice(offset))?.[0].trim() ?? '';
    return problem('yaml-duplicate-key', place, `the key "${key}" stands twice in one mapping`, 'take one of the two out');
  }
  if (error.code === 'TAB_AS_INDENT' || text[offset] === '\t')
    return problem('yaml-syntax', place, 'a tab is used to indent', 'YAML is indented with spaces only');
  const [said = ''] = error.message.split('\n');
  return problem('yaml-syntax', place, `this is not well-formed YAML: ${said.replace(/\.?$/u, '')}`, undefined);
}

/** A place in no particular line. */
export function wholeFile(file: string): Place {
  return { kind: 'file', file };
}

function problem(code: DiagnosticCode, place: Place, message: string, hint: string | undefined): Diagnostic {
  return { code, severity: 'error', place, message, ...(hint === undefined ? {} : { hint }) };
}
