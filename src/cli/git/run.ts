import { fileProblem } from '../files/problems.js';

/** What git printed. */
export interface Answer {
  /** Up to the limit. */
  readonly bytes: Uint8Array;
  /** Why it printed nothing, or not all. */
  readonly problem?: Problem;
}

export interface Problem {
  readonly message: string;
  /** What would be right. */
  readonly hint?: string;
}

/** The most that git may list: the names of a large repository. Unit: bytes. */
export const listLimit = 1 << 26;

/** Runs git, without a shell, in English. Output over the limit is cut there. */
export async function git(words: readonly string[], limit: number): Promise<Answer> {
  // Most commands run no other program.
  const { execFile } = await import('node:child_process');
  const env = { ...process.env, LC_ALL: 'C', GIT_TERMINAL_PROMPT: '0' };
  return new Promise((resolve) => {
    execFile('git', words, { encoding: 'buffer', maxBuffer: limit, env }, (error, stdout, stderr) => {
      const isCut = error?.code === 'ERR_CHILD_PROCESS_STDIO_MAXBUFFER';
      const problem = error && !isCut ? { problem: problemOf(error, stderr.toString()) } : {};
      resolve({ bytes: new Uint8Array(stdout), ...problem });
    });
  });
}

/** What git prints as text, its last line break left out; undefined where it fails. */
export async function gitText(...words: readonly string[]): Promise<string | undefined> {
  const { bytes, problem } = await git(words, listLimit);
  return problem ? undefined : new TextDecoder().decode(bytes).replace(/\n$/u, '');
}

/** What git prints as a list that ends each entry with a zero (its -z); empty where it fails. */
export async function gitList(...words: readonly string[]): Promise<readonly string[]> {
  const text = (await gitText(...words)) ?? '';
  return text.split('\0').filter((entry) => entry !== '');
}

/** Why git failed, in its own words where it has any. */
function problemOf(error: Error & { readonly code?: unknown }, said: string): Problem {
  if (error.code === 'ENOENT')
    return { message: 'git, which keeps versions, is not installed', hint: 'install git, or name a file' };
  if (typeof error.code === 'string') return { message: `git cannot be run: ${fileProblem(error)}` };
  const [, fatal = 'nothing of that name can be found'] = /^fatal: (.+)$/mu.exec(said) ?? [];
  const hint =
    'write a version as REVISION:PATH, with the path from the top of the repository, or as REVISION:./PATH from this folder';
  return { message: fatal.endsWith('bad file') ? 'in git it is no file' : `git says: ${fatal}`, hint };
}
