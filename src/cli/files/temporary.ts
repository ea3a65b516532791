import { createHash, randomBytes } from 'node:crypto';
import { lstatSync, readdirSync, unlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { codeOf, fileProblem } from './problems.js';

/** Which machine wrote a file, since a process's number says nothing on another one that shares the folder. */
const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
const ours = /^\..*\.keyslip-([0-9a-f]{8})-(\d{1,10})-[0-9a-f]{12}\.tmp$/u;
const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Temporary files that are there now. */
const present = new Set<string>();
/** What is told of those that could not be taken away. */
const left: Diagnostic[] = [];

/** A name beside a file for what is not finished: with the number of this process, so that it is known whose it is. */
export function temporaryBeside(target: string): string {
  const rest = randomBytes(6).toString('hex');
  const name = `.${basename(target).slice(0, 80)}.keyslip-${machine}-${process.pid}-${rest}.tmp`;
  const path = join(dirname(target), name);
  if (present.size === 0) listen();
  present.add(path);
  return path;
}

/** Told that a temporary file has got its own name. */
export function forgetTemporary(path: string): void {
  present.delete(path);
  if (present.size > 0) return;
  // A signal that came in the meantime is seen first: in the next turn of the loop, after the rest of this one.
  setImmediate(() => setImmediate(() => present.size === 0 && stopListening()));
}

/** Takes a temporary file away; what does not let itself be taken away is told by `leftOver`. */
export function removeTemporary(path: string): void {
  try {
    unlinkSync(path);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') left.push(notRemoved(path, error));
  }
  forgetTemporary(path);
}

/** Temporary files that could not be taken away since this was last asked. Warnings: left-over. */
export function leftOver(): readonly Diagnostic[] {
  return left.splice(0);
}

function notRemoved(path: string, error: unknown): Diagnostic {
  return diagnostic(
    'left-over',
    { kind: 'file', file: path },
    `this temporary file cannot be taken away: ${fileProblem(error)}`,
    'the next run that writes into this folder takes it away',
  );
}

/**
 * Takes away what runs that were killed have left in a folder: files with our kind of name, from this machine, of
 * processes that do not live any more.
 */
export function sweep(folder: string): void {
  for (const name of namesIn(folder)) {
    const [, host, pid] = ours.exec(name) ?? [];
    if (host !== machine || present.has(join(folder, name)) || lives(Number(pid))) continue;
    const path = join(folder, name);
    if (isFile(path)) removeQuietly(path);
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    // Folders may be open for writing but not for looking.
    return [];
  }
}

function isFile(path: string): boolean {
  try {
    return lstatSync(path).isFile();
  } catch {
    return false;
  }
}

/** Whether another process of that number lives. One of our own number is an earlier one's file: we know ours. */
function lives(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
}

/** Takes a file away, if the system lets it. */
export function removeQuietly(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // It is gone already, or the disk no longer answers: nothing is left to undo.
  }
}

/** Signals are listened to only while there is something to take away: whoever listens to them has to end by itself. */
function listen(): void {
  stopListening();
  for (const signal of signals) process.on(signal, endBy);
  process.on('exit', removeAll);
}

function stopListening(): void {
  for (const signal of signals) process.off(signal, endBy);
  process.off('exit', removeAll);
}

function removeAll(): void {
  for (const path of present) removeQuietly(path);
  present.clear();
}

/** Ends as the signal would have ended the program, so that whoever waits for it sees the same. */
function endBy(signal: NodeJS.Signals): void {
  removeAll();
  stopListening();
  process.kill(process.pid, signal);
}
