import { statSync } from 'node:fs';
import { escapeText } from '../../diagnose/escape.js';
import { type CommonOptions, show } from '../context.js';
import { stage } from '../files/stage.js';
import { exit, type Io, UsageError } from '../io.js';
import { starterMap } from '../starter-map.js';

/** `keyslip init`: writes a commented map to begin from; never over a file that is there. */
export async function initCommand(file: string, options: CommonOptions, io: Io): Promise<number> {
  if (file === '-') {
    io.out(starterMap);
    return exit.done;
  }
  if (statSync(file, { throwIfNoEntry: false }))
    throw new UsageError('there is a file of that name already: give another');
  const staged = stage(file, new TextEncoder().encode(starterMap));
  const failures = staged.diagnostics.length > 0 ? staged.diagnostics : staged.commit();
  if (failures.length === 0 && !options.quiet)
    io.out(
      `${escapeText(file)} is written. Put in your library's switches, then: keyslip check ${escapeText(file)}\n`,
    );
  return show(failures, options, io);
}
