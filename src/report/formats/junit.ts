import { type Diagnostic, escapeLines, formatDiagnostic } from '../../diagnostics/index.js';
import { counts, type Findings, type Looked } from './report.js';

/** A report in the XML of JUnit, which runners of tests show: each file is a test, and what counts in it a failure. */
export function junitText(findings: Findings): string {
  const { command, files } = findings;
  const failed = files.filter(({ diagnostics }) => diagnostics.some((one) => counts(one, findings))).length;
  const totals = `tests="${files.length}" failures="${failed}" errors="0"`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites ${totals}>`,
    `  <testsuite name="keyslip ${command}" ${totals} skipped="0">`,
    ...files.flatMap((file) => testcase(file, findings)),
    '  </testsuite>',
    '</testsuites>',
    '',
  ].join('\n');
}

function testcase({ file, diagnostics }: Looked, findings: Findings): readonly string[] {
  const failures = diagnostics.filter((one) => counts(one, findings));
  const others = diagnostics.filter((one) => !counts(one, findings));
  const open = `    <testcase classname="keyslip.${findings.command}" name="${xml(file)}"`;
  if (diagnostics.length === 0) return [`${open}/>`];
  return [
    `${open}>`,
    ...failures.map(failure),
    ...(others.length === 0
      ? []
      : [`      <system-out>${others.map((one) => xml(formatDiagnostic(one))).join('\n')}</system-out>`]),
    '    </testcase>',
  ];
}

function failure(one: Diagnostic): string {
  return `      <failure type="${one.code}" message="${xml(one.message)}">${xml(formatDiagnostic(one))}</failure>`;
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text as XML takes it: what XML 1.0 does not allow (most controls) is spelled, as elsewhere. */
function xml(text: string): string {
  const safe = escapeLines(text);
  return safe.replace(/[&<>"]/gu, (sign) => entities[sign] ?? sign).replace(/[\ufffe\uffff]/gu, '\ufffd');
}
