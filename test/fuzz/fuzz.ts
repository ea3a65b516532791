import { type ChildProcess, fork } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Kind, kinds, loadSeeds, runCase } from './cases.js';
import { killRuns } from './kill.js';

/**
 * `npm run fuzz -- [--midi 20000] [--map 2000] [--command 2000] [--cue 2000] [--sheet 1000] [--timing 20000] [--resets 2000] [--first 0] [--folder FOLDER]`:
 * mutated MIDI files, maps, command lines and cues, sheets of mutated MIDI files, random music with random timing, the same with programs and resets of its own, each case made from its number. A case that throws, or
 * takes more than five seconds, is named and the run fails. `--kill 200` alone kills the built program in the middle of that many runs. Seeds are the demo recording, and the MIDI files of a folder where one is given.
 */
const longest = 5000;
/** A process that has just been started reads its seeds first. */
const beginning = 60_000;

interface Failure {
  readonly kind: Kind;
  readonly number: number;
  readonly why: string;
}

function option(name: string, otherwise: number): number {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : Number(process.argv[at + 1]);
}

function midiFiles(): readonly string[] {
  const at = process.argv.indexOf('--folder');
  const folder = at < 0 ? undefined : process.argv[at + 1];
  const found =
    folder === undefined
      ? []
      : readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => `${folder}/${name}`);
  const small = found.filter((name) => name.endsWith('.mid') && statSync(name).size < 100_000);
  return ['maps/demo/last-boat.mid', ...small];
}

async function work(): Promise<void> {
  const seeds = loadSeeds(process.argv.slice(3));
  process.on('message', async ({ kind, number }: { kind: Kind; number: number }) => {
    try {
      process.send?.({ ended: await runCase(kind, number, seeds) });
    } catch (error) {
      process.send?.({ why: error instanceof Error ? (error.stack ?? error.message) : String(error) });
    }
  });
}

interface Answer {
  readonly ended?: string;
  readonly why?: string;
}

async function runAll(): Promise<void> {
  const files = midiFiles();
  const failures: Failure[] = [];
  let worker = start(files);
  let isFresh = true;
  for (const kind of kinds) {
    const count = option(
      kind,
      { midi: 20_000, map: 2000, command: 2000, cue: 2000, sheet: 1000, timing: 20_000, resets: 2000 }[kind],
    );
    const first = option('first', 0);
    const ends = new Map<string, number>();
    for (let number = first; number < first + count; number++) {
      const answer = await ask(worker, { kind, number }, isFresh ? beginning : longest);
      isFresh = answer.ended === undefined;
      if (answer.ended !== undefined) ends.set(answer.ended, (ends.get(answer.ended) ?? 0) + 1);
      else failures.push({ kind, number, why: answer.why ?? `no answer in ${longest} ms` });
      if (answer.ended === undefined) {
        worker.kill('SIGKILL');
        worker = start(files);
      }
    }
    console.log(`${kind}: ${count} cases: ${[...ends].map(([end, times]) => `${times} ${end}`).join(', ')}`);
  }
  worker.kill();
  for (const { kind, number, why } of failures.slice(0, 40)) console.log(`FAILED ${kind} ${number}: ${why}`);
  console.log(failures.length === 0 ? 'no failures' : `${failures.length} failures`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}

function start(files: readonly string[]): ChildProcess {
  return fork(fileURLToPath(import.meta.url), ['worker', ...files]);
}

function ask(
  worker: ChildProcess,
  question: { readonly kind: Kind; readonly number: number },
  patience: number,
): Promise<Answer> {
  return new Promise((done) => {
    const timer = setTimeout(() => finish({}), patience);
    const finish = (answer: Answer) => {
      clearTimeout(timer);
      worker.off('message', finish);
      worker.off('exit', ended);
      done(answer);
    };
    const ended = (code: number | null) => finish({ why: `the process ended with ${code}` });
    worker.on('message', finish);
    worker.on('exit', ended);
    worker.send(question);
  });
}

async function killAll(count: number): Promise<void> {
  const { killed, writing, left, failures } = await killRuns(count, Math.random);
  console.log(
    `kill: ${count} runs: ${killed} killed, ${writing} of them while writing; ${left} left files for the next run to take away`,
  );
  for (const failure of failures) console.log(`FAILED ${failure}`);
  console.log(failures.length === 0 ? 'no failures' : `${failures.length} failures`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}

const kills = option('kill', 0);
await (process.argv[2] === 'worker' ? work() : kills > 0 ? killAll(kills) : runAll());
