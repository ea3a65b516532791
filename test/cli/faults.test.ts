import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { killRuns } from '../fuzz/kill.js';
import { keyslip, program, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const folder = scratchFolder();
const map = resolve('maps/saltmarsh-horns.yaml');
const recording = resolve('maps/demo/last-boat.mid');
const compileTo = (output: string, cwd: string, more: readonly string[] = []) =>
  keyslip(['compile', recording, '--map', map, '-o', output, ...more], { cwd });
const fresh = () => mkdtempSync(join(folder, 'case-'));
const isRoot = process.getuid?.() === 0;

/** The finished result, to compare with. */
const finished = (() => {
  const cwd = fresh();
  compileTo('finished.mid', cwd);
  return readFileSync(join(cwd, 'finished.mid'));
})();

/** A track whose result is larger than the limit that is set below. */
const long = bytesOf([
  trackOf(
    Array.from({ length: 6000 }, (_, index) => ({
      tick: index * 60,
      end: index * 60 + 20 + (index % 7) * 8,
      pitch: 40 + (index % 30),
    })),
  ),
]);

describe('an output that cannot be written leaves the old file as it was', () => {
  it('when the disk is full (/dev/full)', () => {
    const { status, err } = compileTo('/dev/full', fresh());
    expect(status).toBe(1);
    expect(err).toContain('[cannot-write]');
    expect(err).toContain('the disk is full');
  });

  it('when the file would be larger than the system allows', async () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'out.mid'), 'old');
    writeFileSync(join(cwd, 'long.mid'), long);
    // The shell's file size limit is in blocks of 512 or 1024 bytes; the result is much larger.
    const shell = `trap '' XFSZ; ulimit -f 8; exec "${process.execPath}" "${program}" compile long.mid --map "${map}" -o out.mid`;
    const { status, err } = await running('bash', ['-c', shell], cwd);
    expect(status).toBe(1);
    expect(err).toContain('[cannot-write]');
    expect(readFileSync(join(cwd, 'out.mid'), 'utf8')).toBe('old');
    expect(readdirSync(cwd).sort()).toEqual(['long.mid', 'out.mid']);
  });

  it('when its folder is missing, or is a file', () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'file'), '');
    for (const output of ['missing/out.mid', 'file/out.mid']) {
      const { status, err } = compileTo(output, cwd);
      expect(status).toBe(1);
      expect(err).toMatch(/\[cannot-write\].*no such|\[cannot-write\].*a file, not a folder/u);
    }
  });

  it('when it is a folder', () => {
    const cwd = fresh();
    mkdirSync(join(cwd, 'out.html'));
    expect(keyslip(['sheet', recording, '--map', map, '-o', 'out.html'], { cwd }).err).toContain(
      'it is a folder',
    );
    mkdirSync(join(cwd, 'out/last-boat.mid'), { recursive: true });
    expect(compileTo('out', cwd).err).toContain('it is a folder');
  });

  it('when its folder or the file itself is read-only', async () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'out.mid'), 'old');
    chmodSync(join(cwd, 'out.mid'), 0o444);
    chmodSync(cwd, 0o555);
    // Root may write anywhere, so the program is run as another user where the tests are root's.
    const words = [program, 'compile', recording, '--map', map, '-o', join(cwd, 'out.mid')];
    chmodSync(folder, 0o755);
    const ran = isRoot
      ? await running(
          'setpriv',
          ['--reuid=65534', '--regid=65534', '--clear-groups', process.execPath, ...words],
          '/',
        )
      : await running(process.execPath, words, '/');
    chmodSync(cwd, 0o755);
    expect(ran.status).toBe(1);
    expect(ran.err).toContain('[cannot-write]');
    expect(readFileSync(join(cwd, 'out.mid'), 'utf8')).toBe('old');
    expect(readdirSync(cwd)).toEqual(['out.mid']);
  });

  it('when the report cannot be written: neither is', () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'out.mid'), 'old');
    expect(compileTo('out.mid', cwd, ['--report', 'missing/report.json']).status).toBe(1);
    expect(readFileSync(join(cwd, 'out.mid'), 'utf8')).toBe('old');
    expect(readdirSync(cwd)).toEqual(['out.mid']);
  });
});

describe('killed in the middle', () => {
  it('at any moment, files are the old ones or the finished ones, and the next run sweeps', async () => {
    // The first kills come soon after the program begins to write, and at a seventh of its time.
    const { killed, failures } = await killRuns(4, () => 0.15);
    expect([failures, killed > 0]).toEqual([[], true]);
  });
});

describe('outputs of other kinds', () => {
  it('a link is followed, and stays a link', () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'real.mid'), 'old');
    symlinkSync('real.mid', join(cwd, 'link.mid'));
    symlinkSync('not-yet.mid', join(cwd, 'dangling.mid'));
    expect(compileTo('link.mid', cwd).status).toBe(0);
    expect(compileTo('dangling.mid', cwd).status).toBe(0);
    expect(readlinkSync(join(cwd, 'link.mid'))).toBe('real.mid');
    expect(readFileSync(join(cwd, 'real.mid'))).toEqual(finished);
    expect(readFileSync(join(cwd, 'not-yet.mid'))).toEqual(finished);
  });

  it('a circle of links is an error', () => {
    const cwd = fresh();
    symlinkSync('b.mid', join(cwd, 'a.mid'));
    symlinkSync('a.mid', join(cwd, 'b.mid'));
    expect(compileTo('a.mid', cwd).err).toContain('[cannot-write]');
  });

  it('a link to the input is the input', () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'in.mid'), readFileSync(recording));
    symlinkSync('in.mid', join(cwd, 'link.mid'));
    expect(keyslip(['compile', 'in.mid', '--map', map, '-o', 'link.mid'], { cwd }).status).toBe(2);
    expect(readFileSync(join(cwd, 'in.mid'))).toEqual(readFileSync(recording));
  });

  it('a device is written to, not replaced', () => {
    expect(compileTo('/dev/null', fresh()).status).toBe(0);
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
  });

  it('a path may have spaces, other alphabets and a line break', () => {
    const cwd = fresh();
    for (const name of ['with space.mid', 'größe-音楽-🎺.mid', 'line\nbreak.mid', '-dash.mid']) {
      const ran = compileTo(`./${name}`, cwd);
      expect(ran.status).toBe(0);
      expect(readFileSync(join(cwd, name))).toEqual(finished);
      expect(ran.out.split('\n')[0]).toContain('→');
    }
  });

  it('keeps the rights of the file that it replaces', () => {
    const cwd = fresh();
    writeFileSync(join(cwd, 'out.mid'), 'old');
    chmodSync(join(cwd, 'out.mid'), 0o600);
    compileTo('out.mid', cwd);
    expect(statSync(join(cwd, 'out.mid')).mode & 0o777).toBe(0o600);
  });
});

describe('several at once', () => {
  it('two processes that write one output leave one finished file', async () => {
    const cwd = fresh();
    const words = [program, 'compile', recording, '--map', map, '-o', 'out.mid'];
    const ran = await Promise.all([1, 2, 3, 4].map(() => running(process.execPath, words, cwd)));
    expect(ran.map(({ status }) => status)).toEqual([0, 0, 0, 0]);
    expect(readFileSync(join(cwd, 'out.mid'))).toEqual(finished);
    expect(readdirSync(cwd)).toEqual(['out.mid']);
  });

  it('a reader of standard output who goes away is no error', async () => {
    const { status, err } = await running(
      'bash',
      [
        '-c',
        `set -o pipefail; "${process.execPath}" "${program}" explain "${recording}" --map "${map}" | head -1`,
      ],
      fresh(),
    );
    expect([status, err]).toEqual([0, '']);
  });
});

describe('inputs that are no files', () => {
  it('a folder, a missing file and an endless device are each told', () => {
    const cwd = fresh();
    for (const input of ['.', 'missing.mid', '/dev/zero']) {
      const { status, err } = keyslip(['compile', input, '--map', map, '-o', 'out.mid', '--max-midi', '1'], {
        cwd,
      });
      expect(status).toBe(1);
      expect(err).toMatch(/\[(cannot-read|not-midi|midi-too-large)\]/u);
    }
    expect(existsSync(join(cwd, 'out.mid'))).toBe(false);
  });
});

interface Finished {
  readonly status: number | null;
  readonly err: string;
}

function running(command: string, words: readonly string[], cwd: string): Promise<Finished> {
  return new Promise((done, fail) => {
    const child = spawn(command, words, { cwd, stdio: ['ignore', 'ignore', 'pipe'] });
    let err = '';
    child.stderr.on('data', (data: Buffer) => {
      err += data.toString();
    });
    child.on('error', fail);
    child.on('close', (status) => done({ status, err }));
  });
}
