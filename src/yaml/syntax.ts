import type { LineCounter, YAMLError } from 'yaml';
import { type Diagnostic, diagnostic } from '../diagnostics/index.js';

/** One mistake in the syntax brings others after it; so many are told. */
const maxTold = 50;

/** The parser's errors as diagnostics: the first of each line. */
export function syntaxProblems(
  errors: readonly YAMLError[],
  text: string,
  file: string,
  lines: LineCounter,
): readonly Diagnostic[] {
  const told = new Map<number, Diagnostic>();
  for (const error of errors) {
    if (told.size >= maxTold) break;
    const offset = Math.min(error.pos[0], text.length);
    const { line, col } = lines.linePos(offset);
    if (told.has(line)) continue;
    const place = { kind: 'text', file, line: Math.max(1, line), column: Math.max(1, col) } as const;
    const [message, hint] = said(error, text, offset);
    told.set(line, diagnostic('yaml-syntax', place, message, hint));
  }
  return [...told.values()];
}

function said(error: YAMLError, text: string, offset: number): readonly [message: string, hint: string] {
  if (error.code === 'TAB_AS_INDENT' || isTabbed(text, offset))
    return ['a tab is used to indent', 'indent with spaces; YAML takes no tabs there'];
  if (error.code === 'MULTIPLE_DOCS')
    return ['a second document begins here', 'a file holds one document; take the line with --- or ... out'];
  if (error.code === 'TAG_RESOLVE_FAILED')
    return ['there is a tag (!) here', 'take it out, or put the text in quotes'];
  const [first = ''] = error.message.split('\n');
  const words = first.length > 160 ? `${first.slice(0, 160)}…` : first.replace(/\.$/u, '');
  return [
    `this is not well-formed YAML: ${words}`,
    'look at the indentation, brackets and quotes here and just above',
  ];
}

/** Whether the white space at the start of an offset's line has a tab in it. */
function isTabbed(text: string, offset: number): boolean {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ ]*\t/u.test(text.slice(start, start + 200));
}
