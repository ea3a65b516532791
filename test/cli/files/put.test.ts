import {
  chmodSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { putOutputs } from '../../../src/cli/files/put.js';
import { isSameFile } from '../../../src/cli/files/same.js';
import { streamTo } from '../../../src/cli/files/stream.js';
import { sweep, temporaryBeside } from '../../../src/cli/files/temporary.js';
import type { Io } from '../../../src/cli/io.js';
import { scratchFolder } from '../../support/cli.js';

const scratch = scratchFolder();
const fresh = () => mkdtempSync(join(scratch, 'case-'));
const printed: (string | Uint8Array)[] = [];
const io: Io = {
  stdin: async () => new Uint8Array(),
  out: (data) => printed.push(data),
  err: () => {},
  color: false,
};

describe('several outputs', () => {
  it('are all put in place', () => {
    const folder = fresh();
    const [a, b] = [join(folder, 'a'), join(folder, 'b')];
    writeFileSync(a, 'old');
    const outputs = [
      { path: a, content: 'new a' },
      { path: b, content: [new Uint8Array([98]), new Uint8Array([66])] },
    ];
    expect(putOutputs(outputs, io)).toEqual([]);
    expect([a, b].map((path) => readFileSync(path, 'utf8'))).toEqual(['new a', 'bB']);
    expect(readdirSync(folder)).toEqual(['a', 'b']);
  });

  it.each([
    ['a device that is full', '/dev/full', 'the disk is full'],
    ['a folder that is not there', join(scratch, 'missing/b'), 'no such folder'],
  ])('are none where one goes to %s, and standard output keeps still', (_, bad, told) => {
    const folder = fresh();
    const a = join(folder, 'a');
    writeFileSync(a, 'old');
    printed.length = 0;
    const outputs = [a, join(folder, 'b'), bad, '-'].map((path) => ({ path, content: 'new' }));
    expect(putOutputs(outputs, io)).toMatchObject([
      { code: 'cannot-write', message: expect.stringContaining(told) },
    ]);
    expect(readFileSync(a, 'utf8')).toBe('old');
    expect([readdirSync(folder), printed]).toEqual([['a'], []]);
  });

  it('are none where standard output takes no more', () => {
    const folder = fresh();
    const full = { ...io, out: () => streamTo('/dev/full').write(new Uint8Array(1)) };
    const outputs = [
      { path: join(folder, 'a'), content: 'new' },
      { path: '-', content: 'new' },
    ];
    expect(putOutputs(outputs, full)).toMatchObject([{ code: 'cannot-write' }]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('are what they were where the last step fails for one of them', () => {
    const folder = fresh();
    const [a, b, c] = ['a', 'b', 'c'].map((name) => join(folder, name)) as [string, string, string];
    writeFileSync(a, 'old');
    // A folder takes the place of the last one between staging and the end.
    const late = {
      *[Symbol.iterator]() {
        yield new Uint8Array(1);
        mkdirSync(c);
      },
    };
    const outputs = [
      { path: a, content: 'new' },
      { path: b, content: 'new' },
      { path: c, content: late },
    ];
    expect(putOutputs(outputs, io)).toMatchObject([{ code: 'cannot-write' }]);
    expect(readFileSync(a, 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['a', 'c']);
  });

  it('are one file where a link to nothing leads to the other', () => {
    const folder = fresh();
    symlinkSync('out.mid', join(folder, 'report.json'));
    expect(isSameFile(join(folder, 'out.mid'), join(folder, 'report.json'))).toBe(true);
    expect(isSameFile(join(folder, 'out.mid'), join(folder, 'other.json'))).toBe(false);
  });
});

describe('a file that is replaced', () => {
  // 0666 is what a mask of 022 would take rights from.
  it.each([0o600, 0o666, 0o640])('keeps its rights', (mode) => {
    const path = join(fresh(), 'a');
    writeFileSync(path, 'old');
    chmodSync(path, mode);
    expect(putOutputs([{ path, content: 'new' }], io)).toEqual([]);
    expect(statSync(path).mode & 0o7777).toBe(mode);
  });

  it('loses the right to be run, and is told to', () => {
    const path = join(fresh(), 'a');
    writeFileSync(path, 'old');
    chmodSync(path, 0o4755);
    expect(putOutputs([{ path, content: 'new' }], io)).toMatchObject([
      { code: 'not-kept', message: expect.stringContaining('no right to be run') },
    ]);
    expect(statSync(path).mode & 0o7777).toBe(0o644);
  });

  it('says that its other names still lead to the old one', () => {
    const folder = fresh();
    const path = join(folder, 'a');
    writeFileSync(path, 'old');
    linkSync(path, join(folder, 'b'));
    expect(putOutputs([{ path, content: 'new' }], io)).toMatchObject([
      { code: 'not-kept', message: expect.stringContaining('1 other name') },
    ]);
    expect(readFileSync(join(folder, 'b'), 'utf8')).toBe('old');
  });
});

describe('a signal', () => {
  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)('%s takes away what is not finished', async (signal) => {
    // What earlier tests listened to is let go of in a turn or two.
    for (let turn = 0; turn < 3; turn++) await new Promise((next) => setImmediate(next));
    const folder = fresh();
    const others = process.listeners(signal);
    const stream = streamTo(join(folder, 'a'));
    stream.write(new Uint8Array(10));
    expect(readdirSync(folder)).toHaveLength(1);
    // The process that runs this test is to live on.
    const kill = vi.spyOn(process, 'kill').mockReturnValue(true);
    const [ours] = process.listeners(signal).filter((one) => !others.includes(one));
    ours?.(signal);
    expect(kill.mock.calls).toEqual([[process.pid, signal]]);
    kill.mockRestore();
    expect([readdirSync(folder), process.listeners(signal)]).toEqual([[], others]);
    stream.discard();
  });
});

describe('what a run that was killed has left', () => {
  it('is swept by the next; files of others, of living processes and of other machines are not', () => {
    const folder = fresh();
    const ours = temporaryBeside(join(folder, 'a'));
    const part = `-${process.pid}-`;
    // No process has this number: Linux counts up to 4194304.
    const dead = ours.replace(part, '-999999999-');
    const kept = {
      ours,
      living: ours.replace(part, `-${process.ppid}-`),
      otherMachine: dead.replace(/keyslip-[0-9a-f]{8}/u, 'keyslip-00000000'),
      others: join(folder, '.a.tmp'),
    };
    // What an earlier process of our number left is not known to us.
    const earlier = ours.replace(/[0-9a-f]{12}\.tmp$/u, '0123456789ab.tmp');
    for (const path of [dead, earlier, ...Object.values(kept)]) writeFileSync(path, '');
    sweep(folder);
    expect(readdirSync(folder).sort()).toEqual(
      Object.values(kept)
        .map((path) => path.slice(folder.length + 1))
        .sort(),
    );
    expect(putOutputs([{ path: join(folder, 'a'), content: 'new' }], io)).toEqual([]);
    expect(readFileSync(join(folder, 'a'), 'utf8')).toBe('new');
  });
});
