import { execFileSync, spawn } from 'node:child_process';
import { constants, mkdtempSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** What a command line in the warm process came to. */
export interface Answer {
  readonly status: number;
  readonly out: Buffer;
  readonly err: string;
}

interface Channel {
  readonly request: number;
  readonly answer: number;
}

/** The program's function, as `.config/source.mjs` makes it before the tests. */
const program = resolve('node_modules/.cache/keyslip-src/cli/program.js');
const script = resolve('test/support/warm.mjs');

let channel: Channel | undefined;

/**
 * Runs a command line in a process that is started once for many of them, and waits for it. What a process of its own
 * would show and this cannot (streams, signals, the environment) belongs to `keyslip` with an environment.
 */
export function warm(words: readonly string[], cwd: string): Answer {
  const { request, answer } = channel ?? open();
  // Whoever does not answer is not asked again.
  channel = undefined;
  writeAll(request, `${Buffer.from(JSON.stringify({ words, cwd })).toString('base64')}\n`);
  const { status, failure, out, err } = answerIn(readLine(answer, Date.now() + 60_000));
  channel = { request, answer };
  if (failure !== undefined) throw new Error(`keyslip ${words.join(' ')} ended with ${failure}`);
  return { status, out: Buffer.from(out, 'base64'), err };
}

function answerIn(line: string): { status: number; failure?: string; out: string; err: string } {
  return JSON.parse(Buffer.from(line, 'base64').toString());
}

/** Two named pipes: those of a child process cannot be read and written without giving way. */
function open(): Channel {
  const folder = mkdtempSync(join(tmpdir(), 'keyslip-warm-'));
  const [request, answer] = [join(folder, 'request'), join(folder, 'answer')];
  execFileSync('mkfifo', [request, answer]);
  const start = ['-c', 'exec "$@" <"$0/request" >"$0/answer"', folder, process.execPath, script, program];
  spawn('/bin/sh', start, { stdio: ['ignore', 'ignore', 'inherit'] }).unref();
  const ends = {
    answer: openSync(answer, constants.O_RDONLY | constants.O_NONBLOCK),
    request: openSync(request, 'w'),
  };
  // It greets once it has them both, which are then known by their ends alone.
  readLine(ends.answer, Date.now() + 60_000);
  rmSync(folder, { recursive: true });
  return ends;
}

function writeAll(descriptor: number, text: string): void {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
}

/** One line, and never more: the next is only written when it has been asked for. */
function readLine(descriptor: number, latest: number): string {
  const block = Buffer.alloc(1 << 16);
  let text = '';
  while (!text.endsWith('\n')) {
    const length = lengthRead(descriptor, block);
    text += block.toString('latin1', 0, length);
    if (length > 0) continue;
    if (Date.now() > latest) throw new Error('no answer');
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1);
  }
  return text;
}

/** 0 where there is nothing yet. */
function lengthRead(descriptor: number, block: Buffer): number {
  try {
    return readSync(descriptor, block);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EAGAIN') return 0;
    throw error;
  }
}
