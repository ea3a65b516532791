import { type Diagnostic, escapeLines, escapeText } from '../../diagnostics/index.js';
import { type Findings, pathIn, standsNowhere, wholeMessage } from './report.js';

/**
 * Workflow commands that GitHub shows beside the lines of a change: `::error file=…,line=…,col=…,title=…::message`
 * (docs.github.com, "Workflow commands for GitHub Actions"). One that names no file stands at the run as a whole.
 */
export function githubText({ files }: Findings): string {
  return files.flatMap(({ diagnostics }) => diagnostics.map((one) => `${command(one)}\n`)).join('');
}

function command(one: Diagnostic): string {
  const { code, severity, place } = one;
  const properties = [
    ...(standsNowhere(one) ? [] : [['file', pathIn(place.file)]]),
    ...(place.kind === 'text'
      ? [
          ['line', String(place.line)],
          ['col', String(place.column)],
        ]
      : []),
    ['title', `keyslip: ${code}`],
  ].map(([key = '', value = '']) => `${key}=${property(value)}`);
  return `::${severity} ${properties.join(',')}::${data(wholeMessage(one))}`;
}

/** A message; the runner reads %25, %0D and %0A back. */
function data(text: string): string {
  return escapeLines(text).replaceAll('%', '%25').replaceAll('\n', '%0A');
}

/** A property's value, in which : and , would end it; the runner reads %3A and %2C back. */
function property(text: string): string {
  return escapeText(text).replaceAll('%', '%25').replaceAll(':', '%3A').replaceAll(',', '%2C');
}
