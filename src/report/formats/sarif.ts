import { codes, type Diagnostic, type DiagnosticCode } from '../../diagnostics/index.js';
import { counts, type Findings, pathIn, placeBehindFile, standsNowhere, wholeMessage } from './report.js';

const schema = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

/** A log in SARIF 2.1.0 (OASIS Standard), which code hosts and editors show; a code is a rule. */
export function sarifLog(findings: Findings): Readonly<Record<string, unknown>> {
  const all = findings.files.flatMap(({ diagnostics }) => diagnostics);
  const used = [...new Set(all.map(({ code }) => code))].sort();
  return {
    $schema: schema,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: { name: 'keyslip', version: findings.version, rules: used.map(rule) },
        },
        // Columns are counted in UTF-16 units, as YAML's reader does.
        columnKind: 'utf16CodeUnits',
        invocations: [
          { executionSuccessful: true, exitCode: all.some((one) => counts(one, findings)) ? 1 : 0 },
        ],
        results: all.map((one) => result(one, used.indexOf(one.code))),
      },
    ],
  };
}

function rule(id: DiagnosticCode): Readonly<Record<string, unknown>> {
  const { severity, means } = codes[id];
  return { id, shortDescription: { text: means }, defaultConfiguration: { level: severity } };
}

function result(one: Diagnostic, ruleIndex: number): Readonly<Record<string, unknown>> {
  const { code, severity, place } = one;
  const logical = placeBehindFile(place);
  const location = {
    physicalLocation: {
      artifactLocation: { uri: uriOf(pathIn(place.file)) },
      ...(place.kind === 'text' ? { region: { startLine: place.line, startColumn: place.column } } : {}),
      ...(place.kind === 'bytes' ? { region: { byteOffset: place.offset, byteLength: 0 } } : {}),
    },
    ...(logical === '' ? {} : { logicalLocations: [{ fullyQualifiedName: logical }] }),
  };
  return {
    ruleId: code,
    ruleIndex,
    level: severity,
    message: { text: wholeMessage(one) },
    ...(standsNowhere(one) ? {} : { locations: [location] }),
  };
}

/** A path as a reference of RFC 3986: from where the command was run, or with the scheme of files. */
function uriOf(path: string): string {
  const steps = path.replaceAll('\\', '/').split('/').map(encodeURIComponent).join('/');
  return steps.startsWith('/') ? `file://${steps}` : steps;
}
