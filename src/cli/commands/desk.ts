import { deskPage } from '../../desk/index.js';
import type { CommonOptions } from '../context.js';
import { isCueFile } from '../cue-name.js';
import { deskFor } from '../desk/desk.js';
import { portOf, serve } from '../desk/server.js';
import { type Io, UsageError } from '../io.js';
import { watched } from '../watch.js';

export interface DeskOptions extends CommonOptions {
  /** As it was written. */
  readonly port?: string;
}

/**
 * `keyslip desk`: serves the sheet of a cue on the loopback address, and makes it anew whenever a file of the cue changes,
 * until it is ended.
 */
export async function deskCommand(file: string, options: DeskOptions, io: Io): Promise<number> {
  if (file === '-')
    throw new UsageError('the desk watches the files of a cue: give it a file, not standard input');
  if (!isCueFile(file))
    throw new UsageError('the desk shows a cue: give it CUE.yaml (keyslip init --cue IN.mid makes one)');
  const desk = deskFor(file, options, io);
  const json = () => {
    const state = desk.state();
    return state && JSON.stringify(state);
  };
  const served = await serve(options.port === undefined ? 0 : portOf(options.port), {
    page: deskPage(),
    sheet: desk.sheet,
    state: json,
    moved: async (told) => JSON.stringify(await desk.moved(told)),
    write: async (told) => JSON.stringify(await desk.write(told)),
  });
  try {
    io.out(`${served.address}\n`);
    return await watched([file], { watch: true }, io, (each) => desk.compile(each, served.tell));
  } finally {
    await served.close();
  }
}
