import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { junitText } from '../../../src/report/index.js';
import { findings, nothing } from './findings.js';

/** The elements of a well-formed document (saxes is strict), in order, with their texts. */
function elements(xml: string) {
  const found: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => void found.push({ name, attributes, text: '' }));
  parser.on('text', (text) => {
    const last = found.at(-1);
    if (last) last.text += text;
  });
  parser.write(xml).close();
  return found;
}

// The format has no standard; what readers of it ask for is checked with a schema in test/external/ci/.
describe('findings as JUnit XML', () => {
  it('are a test for each file, with a failure for what counts', () => {
    const [suites, suite, ...rest] = elements(junitText(findings));
    expect(suites).toMatchObject({
      name: 'testsuites',
      attributes: { tests: '4', failures: '3', errors: '0' },
    });
    expect(suite).toMatchObject({
      name: 'testsuite',
      attributes: { name: 'keyslip check', tests: '4', failures: '3', errors: '0', skipped: '0' },
    });
    expect(rest.map(({ name, attributes: { name: file, type } }) => [name, file ?? type])).toEqual([
      ['testcase', 'maps/in order.yaml'],
      ['testcase', 'maps/a,b:50%.yaml'],
      ['failure', 'unknown-key'],
      ['system-out', undefined],
      ['testcase', '/abs/take.mid'],
      ['failure', 'midi-event'],
      ['system-out', undefined],
      ['testcase', 'origin/main'],
      ['failure', 'history-cut'],
    ]);
    expect(rest[2]?.attributes.message).toBe('it is "100%" <wrong> & \\u{1b}[31m, says\\u{d}%0A');
    expect(rest[3]?.text.trim()).toBe(':maps/b.yaml:9:1: warning [dead-rule]: it never fires');
  });

  it('let warnings fail where they count', () => {
    const names = elements(junitText({ ...findings, isStrict: true })).map(({ name }) => name);
    expect(names.filter((name) => name === 'failure')).toHaveLength(5);
    expect(names).not.toContain('system-out');
  });

  it('are an empty suite where nothing was looked at', () => {
    expect(elements(junitText(nothing))[1]?.attributes).toMatchObject({ tests: '0', failures: '0' });
  });
});
