import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { sarifLog } from '../../../src/report/index.js';
import { findings, nothing } from './findings.js';

const require = createRequire(import.meta.url);
// The schema of SARIF 2.1.0 (OASIS, rtm.5), as the package @microsoft/jest-sarif (MIT) brings it, and the ajv that it brings:
// it is written in draft 4, which newer ones do not read.
const at = require.resolve('@microsoft/jest-sarif');
const schema = JSON.parse(
  readFileSync(at.replace(/lib\/[^/]*$/u, 'lib/schemas/sarif-2.1.0-rtm.5.json'), 'utf8'),
) as object;
const theirs = createRequire(at);
const Ajv = theirs('ajv') as new (
  options: object,
) => {
  addMetaSchema: (schema: object) => void;
  validate: (schema: object, data: unknown) => boolean;
  errors: unknown;
};

function problems(log: unknown): unknown {
  const ajv = new Ajv({ allErrors: true, schemaId: 'auto', format: false });
  ajv.addMetaSchema(theirs('ajv/lib/refs/json-schema-draft-04.json') as object);
  return ajv.validate(schema, JSON.parse(JSON.stringify(log))) ? [] : ajv.errors;
}

describe('findings as SARIF', () => {
  it('are what the schema of the standard asks for', () => {
    expect(problems(sarifLog(findings))).toEqual([]);
    expect(problems(sarifLog(nothing))).toEqual([]);
    // The schema does refuse what is wrong.
    expect(problems({ ...sarifLog(findings), version: '2.2.0' })).not.toEqual([]);
    expect(problems({ version: '2.1.0', runs: [{ results: [] }] })).not.toEqual([]);
  });

  it('name rules, levels and places', () => {
    expect(sarifLog(findings)).toMatchObject({
      runs: [
        {
          tool: {
            driver: {
              name: 'keyslip',
              version: '1.2.3',
              rules: [{ id: 'dead-rule' }, { id: 'history-cut' }, {}, {}, { id: 'unknown-key' }],
            },
          },
          invocations: [{ executionSuccessful: true, exitCode: 1 }],
          results: [
            {
              ruleId: 'unknown-key',
              ruleIndex: 4,
              level: 'error',
              // RFC 3986, 2.1 and 3.3: a comma may stand in a path, but need not; a space and % may not.
              locations: [
                {
                  physicalLocation: {
                    artifactLocation: { uri: 'maps/a%2Cb%2050%25.yaml' },
                    region: { startLine: 3, startColumn: 5 },
                  },
                },
              ],
            },
            { ruleId: 'dead-rule', level: 'warning', locations: [{}] },
            {
              locations: [
                {
                  physicalLocation: {
                    artifactLocation: { uri: 'file:///abs/take.mid' },
                    region: { byteOffset: 20 },
                  },
                },
              ],
            },
            {
              locations: [
                { logicalLocations: [{ fullyQualifiedName: 'track 2 "Horns "I"", bar 3 beat 1' }] },
              ],
            },
            { ruleId: 'history-cut', message: { text: 'the clone is shallow' } },
          ],
        },
      ],
    });
    const { runs } = sarifLog(findings) as { runs: readonly { results: readonly object[] }[] };
    expect(runs[0]?.results[4]).not.toHaveProperty('locations');
  });
});
