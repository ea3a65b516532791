import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, watch, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** What came of runs that were killed without warning. */
export interface Killed {
  readonly runs: number;
  /** Runs that were killed before their end. */
  readonly killed: number;
  /** Of those, how many had begun to write, which is when a temporary file was there. */
  readonly writing: number;
  /** How often files were left that the next run had to take away. */
  readonly left: number;
  readonly failures: readonly string[];
}

const files = ['out.mid', 'out-click.wav'] as const;
/** How many runs are killed before one is let through. */
const atOnce = 5;

/**
 * Runs the built program, which writes two files of some megabytes, and kills it: every other time at any moment, else soon after it
 * begins to write. Each file must be the old one or the new one, whole; after a run that ends nothing else may be there.
 *
 * @param random from 0 to 1, as Math.random
 */
export async function killRuns(runs: number, random: () => number): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'keyslip-kill-'));
  try {
    const began = performance.now();
    await probe(folder);
    const length = performance.now() - began;
    const finished = new Map<string, Buffer>(files.map((name) => [name, readFileSync(join(folder, name))]));
    const counts = { killed: 0, writing: 0, left: 0 };
    const failures: string[] = [];
    for (let number = 0; number < runs; number++) {
      for (const name of files) writeFileSync(join(folder, name), 'old');
      const before = temporaries(folder).length;
      const ended = await probe(folder, {
        isWriting: number % 2 === 0,
        after: random() * (number % 2 === 0 ? length / 8 : length),
      });
      if (ended.wasKilled) counts.killed++;
      if (ended.wasKilled && ended.hadBegun) counts.writing++;
      if (temporaries(folder).length > before) counts.left++;
      failures.push(...torn(folder, finished).map((name) => `run ${number}: ${name} is neither old nor new`));
      if (number % atOnce !== atOnce - 1 && number !== runs - 1) continue;
      await probe(folder);
      const extra = readdirSync(folder).filter((name) => !finished.has(name));
      if (extra.length > 0) failures.push(`run ${number}: left over: ${extra.join(', ')}`);
    }
    return { runs, ...counts, failures };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The files that are neither the old ones nor the finished new ones. */
function torn(folder: string, finished: ReadonlyMap<string, Buffer>): readonly string[] {
  return [...finished].flatMap(([name, whole]) => {
    const found = readFileSync(join(folder, name));
    return found.equals(whole) || found.toString('latin1') === 'old' ? [] : [name];
  });
}

function temporaries(folder: string): readonly string[] {
  return readdirSync(folder).filter((name) => name.endsWith('.tmp'));
}

interface Kill {
  /** Whether the time counts from the first temporary file, not from the beginning. */
  readonly isWriting: boolean;
  /** Unit: ms. */
  readonly after: number;
}

function probe(
  folder: string,
  kill?: Kill,
): Promise<{ readonly wasKilled: boolean; readonly hadBegun: boolean }> {
  return new Promise((done, fail) => {
    const words = ['probe', resolve('maps/saltmarsh-horns.yaml'), '-o', 'out.mid', '--quick', '--quiet'];
    const child = spawn(process.execPath, [resolve('dist/keyslip.js'), ...words], {
      cwd: folder,
      stdio: 'ignore',
    });
    let hadBegun = false;
    const killSoon = () => kill && setTimeout(() => child.kill('SIGKILL'), kill.after);
    const watcher = watch(folder, (_, name) => {
      if (hadBegun || !name?.includes(`-${child.pid}-`)) return;
      hadBegun = true;
      if (kill?.isWriting) killSoon();
    });
    if (!kill?.isWriting) killSoon();
    child.on('error', fail);
    child.on('close', (status, signal) => {
      watcher.close();
      if (status !== null && status !== 0) fail(new Error(`the program ended with ${status}`));
      done({ wasKilled: signal === 'SIGKILL', hadBegun });
    });
  });
}
