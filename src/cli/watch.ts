import { readdirSync, statSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { Option } from 'commander';
import { plural } from '../diagnostics/index.js';
import { exit, type Io, UsageError } from './io.js';
import { secondsText } from './seconds.js';
import { usageText } from './usage.js';

/** How long between two looks at the files. Unit: ms. */
const interval = 100;

/** How long files have to be at rest after a change: editors and recorders write several of them in a burst. Unit: ms. */
const quiet = 300;

/** The option by which a command is done again and again. */
export function watching(): Option {
  return new Option(
    '--watch',
    'do it again whenever one of the files that it reads changes, or a folder that is checked has others, once they are at rest',
  );
}

interface WatchOptions {
  readonly watch?: boolean;
  readonly inPlace?: boolean;
  readonly quiet?: boolean;
}

/**
 * Does something once, or with --watch again whenever a file that it read has changed. What is wrong in between is
 * told, and mended by the next change. Files are looked at rather than watched by the system, so that one that an editor
 * puts in the place of another is seen too.
 *
 * @param paths the inputs and outputs of the command line
 * @returns the exit status, of the last time
 * @throws UsageError where there is nothing to watch, or where the command line is wrong from the beginning
 */
export async function watched(
  paths: readonly (string | undefined)[],
  options: WatchOptions,
  io: Io,
  act: (io: Io) => Promise<number>,
): Promise<number> {
  if (!options.watch) return act(io);
  if (paths.includes('-'))
    throw new UsageError('--watch needs an input file and an output file, not standard input or output');
  if (options.inPlace)
    throw new UsageError('--watch would see its own result with --in-place: give -o OUT.mid');
  let states = new Map<string, string>();
  for (let times = 0; ; times++) {
    const read = new Map<string, string>();
    // What a file was before it was read: a change while it is read, or while the rest is done, counts.
    const opening = (path: string) => {
      if (!read.has(path)) read.set(path, stateOf(path));
    };
    const began = performance.now();
    const status = await oneTime(() => act({ ...io, opening }), times === 0, io);
    if (read.size > 0) states = read;
    const outcome = status === exit.done ? 'Done in' : 'Errors, after';
    const watches = `Watching ${watchedText([...states.values()])} for changes; Ctrl+C ends it.`;
    if (!options.quiet) io.err(`${outcome} ${secondsText(performance.now() - began)}. ${watches}\n`);
    await untilChanged(states, io);
    if (io.ends?.aborted) return status;
  }
}

/** The command line is wrong from the beginning, or has become so by a change, which another mends. */
async function oneTime(act: () => Promise<number>, isFirst: boolean, io: Io): Promise<number> {
  try {
    return await act();
  } catch (error) {
    if (isFirst || !(error instanceof UsageError)) throw error;
    io.err(usageText(error, io));
    return exit.usage;
  }
}

/** Waits until a file is another than it was, and then until all of them are at rest. */
async function untilChanged(states: ReadonlyMap<string, string>, { ends }: Io): Promise<void> {
  const before = [...states.values()].join('\n');
  const now = () => [...states.keys()].map(stateOf).join('\n');
  while (now() === before && !ends?.aborted) await sleep(interval);
  let rests = 0;
  for (let last = now(); rests < quiet && !ends?.aborted; ) {
    await sleep(interval);
    const next = now();
    rests = next === last ? rests + interval : 0;
    last = next;
  }
}

const folderMark = 'folder:';

/**
 * A text that is another once a file is changed, put in another's place, or taken away; of a folder, once it has other
 * maps or folders.
 */
function stateOf(path: string): string {
  try {
    const found = statSync(path, { bigint: true });
    if (found.isDirectory()) return `${folderMark} ${namesIn(path).join('/')}`;
    return `${found.ino} ${found.size} ${found.mtimeNs}`;
  } catch {
    return 'none';
  }
}

function namesIn(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((one) => /\.ya?ml$/u.test(one.name) || (one.isDirectory() && !one.name.startsWith('.')))
    .map(({ name }) => name)
    .sort();
}

function watchedText(states: readonly string[]): string {
  const folders = states.filter((state) => state.startsWith(folderMark)).length;
  const files = plural(states.length - folders, 'file');
  return folders === 0 ? files : `${files} in ${plural(folders, 'folder')}`;
}
