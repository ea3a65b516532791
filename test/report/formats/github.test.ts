import { describe, expect, it } from 'vitest';
import { githubText } from '../../../src/report/index.js';
import { findings, nothing } from './findings.js';

// Source: docs.github.com, "Workflow commands for GitHub Actions": ::{error|warning} file={name},line={line},col={col},
// title={title}::{message}. What is escaped, and how the runner reads it back: actions/runner, src/Runner.Common/ActionCommand.cs
// (%25, %0D, %0A in messages; %3A and %2C in properties besides).
const form = /^::(error|warning) ([a-zA-Z]+=[^,:\r\n]*(?:,[a-zA-Z]+=[^,:\r\n]*)*)::([^\r\n]*)$/u;

/** A command as the runner reads it: escapes back, %25 last. */
function read(line: string) {
  const [, kind, properties = '', message = ''] = form.exec(line) ?? [];
  const data = (text: string) => text.replaceAll('%0D', '\r').replaceAll('%0A', '\n').replaceAll('%25', '%');
  const property = (text: string) => data(text.replaceAll('%3A', ':').replaceAll('%2C', ','));
  const entries = properties.split(',').map((one) => {
    const at = one.indexOf('=');
    return [one.slice(0, at), property(one.slice(at + 1))] as const;
  });
  return { kind, ...Object.fromEntries(entries), message: data(message) };
}

describe('findings as workflow commands', () => {
  it('are lines that the runner reads back as they were meant', () => {
    const lines = githubText(findings).trimEnd().split('\n');
    expect(lines.map(read)).toEqual([
      {
        kind: 'error',
        file: 'maps/a,b 50%.yaml',
        line: '3',
        col: '5',
        title: 'keyslip: unknown-key',
        message: 'it is "100%" <wrong> & \\u{1b}[31m, says\\u{d}%0A\nright would be: a\nb',
      },
      {
        kind: 'warning',
        file: 'maps/b.yaml',
        line: '9',
        col: '1',
        title: 'keyslip: dead-rule',
        message: 'it never fires',
      },
      { kind: 'error', file: '/abs/take.mid', title: 'keyslip: midi-event', message: 'byte 20: no event' },
      {
        kind: 'warning',
        file: 'take.mid',
        title: 'keyslip: note-out-of-range',
        message: 'track 2 "Horns "I"", bar 3 beat 1: too high',
      },
      { kind: 'error', title: 'keyslip: history-cut', message: 'the clone is shallow' },
    ]);
  });

  it('escape % first, so that nothing is read back twice', () => {
    expect(githubText(findings)).toContain('file=maps/a%2Cb 50%25.yaml,');
    expect(githubText(findings)).toContain('%250A%0Aright would be: a%0Ab\n');
  });

  it('are nothing where nothing was found', () => {
    expect(githubText(nothing)).toBe('');
  });
});
