import { stat } from 'node:fs/promises';
import { setTimeout as sleep } from 'node:timers/promises';
import { escapeText } from '../diagnostics/index.js';
import { type Io, UsageError } from './io.js';

/** How long between two looks at the files. Unit: ms. */
const interval = 250;

/**
 * Does something, and again whenever one of the files has changed, until the program is ended. What is wrong in between
 * is told, and mended by the next change. Files are looked at rather than watched by the system, so that one that an
 * editor puts in the place of another is seen too.
 *
 * @param filesNow the files that count; asked before each time
 */
export async function againOnChange(
  filesNow: () => Promise<readonly string[]>,
  act: () => Promise<unknown>,
  io: Io,
): Promise<never> {
  for (let times = 0; ; times++) {
    const files = await filesNow();
    const before = await stateOf(files);
    try {
      await act();
    } catch (error) {
      // The command line is wrong from the beginning, or has become so by a change.
      if (times === 0 || !(error instanceof UsageError)) throw error;
      io.err(`keyslip: ${error.message.split('\n').map(escapeText).join('\n')}\n`);
    }
    io.err(`Watching ${files.length} files for changes; Ctrl+C ends it.\n`);
    while ((await stateOf(files)) === before) await sleep(interval);
  }
}

/** A text that is another once a file is changed, put in another's place, or taken away. */
async function stateOf(files: readonly string[]): Promise<string> {
  const states = files.map(async (file) => {
    const found = await stat(file, { bigint: true }).catch(() => undefined);
    return found ? `${found.ino} ${found.size} ${found.mtimeNs}` : 'none';
  });
  return (await Promise.all(states)).join('\n');
}
