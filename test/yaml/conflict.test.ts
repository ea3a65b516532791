import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCue } from '../../src/cue/index.js';
import { readMap } from '../../src/map/index.js';
import { parseYaml } from '../../src/yaml/index.js';
import { scratchFolder } from '../support/cli.js';
import { commitAll } from '../support/git.js';

const bytes = (text: string) => new TextEncoder().encode(text);
const told = (text: string) =>
  parseYaml(bytes(text), 'a.yaml').diagnostics.map(({ code, place, message }) => ({ code, place, message }));

/** A map as git itself leaves it after a merge in which two branches changed one line. */
function conflicted(style: 'merge' | 'diff3'): string {
  const cwd = scratchFolder();
  const map = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
  const put = (text: string) => writeFileSync(join(cwd, 'horns.yaml'), text);
  const git = (...words: readonly string[]) => execFileSync('git', words, { cwd, stdio: 'pipe' });
  put(map);
  commitAll(cwd);
  git('checkout', '--quiet', '-b', 'other');
  put(map.replace('below: 160ms', 'below: 150ms'));
  commitAll(cwd);
  git('checkout', '--quiet', '-');
  put(map.replace('below: 160ms', 'below: 170ms'));
  commitAll(cwd);
  // Its status is 1, which is what conflicts are.
  spawnSync('git', ['-c', `merge.conflictStyle=${style}`, 'merge', 'other'], { cwd });
  return readFileSync(join(cwd, 'horns.yaml'), 'utf8');
}

describe('a merge that was left unfinished', () => {
  for (const style of ['merge', 'diff3'] as const)
    it(`is one diagnostic, in a file as git leaves it (${style})`, () => {
      const text = conflicted(style);
      const lines = text.split('\n');
      const at = (sign: string) => lines.findIndex((line) => line.startsWith(sign)) + 1;
      const { value, diagnostics } = readMap(bytes(text), 'horns.yaml');
      expect(value).toBeUndefined();
      expect(diagnostics).toEqual([
        {
          code: 'merge-conflict',
          severity: 'error',
          place: { kind: 'text', file: 'horns.yaml', line: at('<<<<<<<'), column: 1 },
          message: `a merge was left unfinished here: to line ${at('=======') - 1} stands what "HEAD" has, to line ${at('>>>>>>>') - 1} what "other" has`,
          hint: 'keep what is right of both, and take the lines of <<<<<<<, ======= and >>>>>>> out',
        },
      ]);
    });

  it('is named in a cue too, and for each place', () => {
    const one = '<<<<<<< HEAD\nname: a\n=======\nname: b\n>>>>>>> main\n';
    const { diagnostics } = readCue(bytes(`format: keyslip-cue/1\n${one}source: x.mid\n${one}`), 'c.yaml');
    expect(diagnostics.map(({ code, place }) => [code, place.kind === 'text' && place.line])).toEqual([
      ['merge-conflict', 2],
      ['merge-conflict', 8],
    ]);
  });

  it('is a line left behind too', () => {
    expect(told('a: 1\n>>>>>>> main\nb: 2\n')).toMatchObject([
      { code: 'merge-conflict', place: { line: 2 }, message: expect.stringContaining('was left behind') },
    ]);
    expect(told('a: 1\n=======\r\nb: 2\n')).toMatchObject([{ code: 'merge-conflict' }]);
  });

  it('is not what only looks like it', () => {
    expect(told('a: "======="\nb: |\n  <<<<<<< HEAD\n  =======\n# =======\n')).toEqual([]);
    expect(told('a: 1\n======\n')).toMatchObject([{ code: 'yaml-syntax' }]);
  });
});
