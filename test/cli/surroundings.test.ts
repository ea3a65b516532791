import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { run } from '../../src/cli/program.js';
import { keyslip, program, scratchFolder } from '../support/cli.js';

const scratch = scratchFolder();
const fresh = () => mkdtempSync(join(scratch, 'case-'));
const map = resolve('maps/saltmarsh-horns.yaml');
const recording = resolve('maps/demo/last-boat.mid');
const node = `"${process.execPath}" "${program}"`;
const shell = (line: string, cwd: string) => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', line], { cwd, timeout: 30_000 });
  return { status, out: stdout.toString(), err: stderr.toString() };
};
/** Put into the built program before it starts. */
const beforehand = (script: string) => ({
  NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(script)}`,
});

describe('a fault of the program', () => {
  // Nothing of ours calls this but what writes JSON.
  const env = beforehand("JSON.stringify = () => { throw new RangeError('made to fail\\nmore') }");
  const words = ['compile', recording, '--map', map, '-o', 'out.mid', '--json'];

  it('is told with version, cause and the way to its trace', () => {
    const { status, err } = keyslip(words, { cwd: fresh(), env });
    expect(status).toBe(1);
    expect(err).toMatch(/^keyslip \d+\.\d+\.\d+: a fault of the program: RangeError: made to fail\n/u);
    expect(err).toContain('KEYSLIP_DEBUG=1');
    expect(err).not.toMatch(/^\s+at /mu);
  });

  it('shows its trace where that is asked for', () => {
    const { err } = keyslip(words, { cwd: fresh(), env: { ...env, KEYSLIP_DEBUG: '1' } });
    expect(err).toMatch(/^ +at /mu);
  });
});

describe('the version', () => {
  it('is that of the package', async () => {
    const printed: (string | Uint8Array)[] = [];
    const io = { stdin: async () => new Uint8Array(), err: () => {}, color: false };
    await run(['--version'], { ...io, out: (data) => printed.push(data) });
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(printed).toEqual([`${version}\n`]);
  });
});

describe('a signal in the middle of writing', () => {
  it('leaves nothing unfinished, and ends the program as signals do', async () => {
    const cwd = fresh();
    // It comes while bytes are on their way to the disk, where nothing else has a turn.
    const env = beforehand(`
      import fs from 'node:fs';
      import { syncBuiltinESMExports } from 'node:module';
      const { fsyncSync } = fs;
      fs.fsyncSync = (descriptor) => {
        process.kill(process.pid, 'SIGTERM');
        fsyncSync(descriptor);
      };
      syncBuiltinESMExports();`);
    const words = ['compile', recording, '--map', map, '-o', 'out.mid', '--report', 'report.json'];
    const ended = await new Promise((done) => {
      const child = spawn(process.execPath, [program, ...words], { cwd, env: { ...process.env, ...env } });
      child.on('close', (_, signal) => done(signal));
    });
    expect([ended, readdirSync(cwd)]).toEqual(['SIGTERM', ['out.mid', 'report.json']]);
    JSON.parse(readFileSync(join(cwd, 'report.json'), 'utf8'));
  });
});

describe('surroundings that are not as they should be', () => {
  it('a working folder that was taken away is told', () => {
    const cwd = fresh();
    mkdirSync(join(cwd, 'gone'));
    const { status, err } = shell(`cd gone; rmdir ../gone; ${node} compile x.mid --map y.yaml -o z.mid`, cwd);
    expect([status, err]).toEqual([1, expect.stringContaining('[cannot-read]')]);
    expect(err).toContain('the working folder is not there any more');
  });

  it('standard output that is full is told', () => {
    const { status, err } = shell(`${node} check "${map}" > /dev/full`, fresh());
    expect(status).toBe(1);
    expect(err).toMatch(/^standard output: error \[cannot-write\]: .*the disk is full/u);
  });

  it('a pipe that nobody writes to, or reads from, is told and not waited for', () => {
    const cwd = fresh();
    const line = `mkfifo in out; ${node} compile in --map "${map}" -o a.mid; echo $?; ${node} compile "${recording}" --map "${map}" -o out --report r.json; echo $?`;
    const { out, err } = shell(line, cwd);
    expect(out).toBe('1\n1\n');
    expect(err).toMatch(/in: error \[cannot-read\]: .*nobody writes to it/u);
    expect(err).toMatch(/out: error \[cannot-write\]: .*nobody reads from it/u);
    expect(readdirSync(cwd).sort()).toEqual(['in', 'out']);
  });

  it('pipes with somebody at the other end are files like others', () => {
    const cwd = fresh();
    const line = `mkfifo in out; (sleep 0.3; cat "${recording}" > in) & cat out > copy.mid & ${node} compile in --map "${map}" -o out && wait && ${node} compile "${recording}" --map "${map}" -o /dev/stdout --quiet | cmp - copy.mid`;
    expect(shell(line, cwd)).toMatchObject({ status: 0, err: '' });
  });

  it('a reader who goes away leaves the exit status as it is', () => {
    const cwd = fresh();
    const { out, err } = shell(
      `printf 'format: keyslip/1\\n' > bad.yaml; ${node} check "${map}" bad.yaml --json | true; echo \${PIPESTATUS[0]}`,
      cwd,
    );
    expect([out, err]).toEqual(['1\n', expect.stringContaining('bad.yaml')]);
  });

  it('a folder as standard input is told', () => {
    const { status, err } = shell(`${node} compile - --map "${map}" -o out.mid < .`, fresh());
    expect([status, err]).toEqual([
      1,
      expect.stringMatching(/^standard input: error \[cannot-read\].*a folder/u),
    ]);
  });
});

describe('standard input', () => {
  const told: string[] = [];
  const asked: number[] = [];
  const io = {
    stdin: async (limit: number) => {
      asked.push(limit);
      return new Uint8Array(limit + 100);
    },
    out: () => {},
    err: (text: string) => told.push(text),
    color: false,
  };

  it('is held to the limits of files', async () => {
    expect(await run(['compile', '-', '--map', map, '-o', '-', '--max-midi', '1'], io)).toBe(1);
    expect(await run(['check', '-', '--max-map', '1'], io)).toBe(1);
    expect(asked).toEqual([1024 * 1024, 1024]);
    expect(told.join('')).toContain('[map-too-large]');
  });

  it('and output go to one place each', async () => {
    for (const words of [
      ['compile', '-', '--map', '-', '-o', 'x.mid'],
      ['compile', recording, '--map', map, '-o', '-', '--report', '-'],
    ]) {
      told.length = 0;
      expect(await run(words, io)).toBe(2);
      expect(told.join('')).toMatch(/standard (input|output)/u);
    }
    expect(existsSync('x.mid')).toBe(false);
  });
});
