import type { Diagnostic } from '../../diagnostics/index.js';
import { type Io, UsageError } from '../io.js';
import { stage } from './stage.js';

/** Something to be written; the path `-` is standard output. */
export interface Output {
  readonly path: string;
  readonly content: Uint8Array | string;
}

/**
 * Puts outputs in place, all of them or none. Errors: cannot-write.
 *
 * @throws UsageError for bytes that are no text and would go to a terminal, before anything is written
 */
export function putOutputs(outputs: readonly Output[], io: Io): readonly Diagnostic[] {
  const isRaw = outputs.some(({ path, content }) => path === '-' && typeof content !== 'string');
  if (isRaw && io.isOutTerminal)
    throw new UsageError(
      'standard output is a terminal, and the result is no text',
      'name a file with -o OUT.mid, or lead it on with > OUT.mid or |',
    );
  const staged = outputs.flatMap(({ path, content }) =>
    path === '-'
      ? []
      : [stage(path, typeof content === 'string' ? new TextEncoder().encode(content) : content)],
  );
  const failures = staged.flatMap(({ diagnostics }) => diagnostics);
  if (failures.length > 0) {
    for (const one of staged) one.discard();
    return failures;
  }
  const late = staged.flatMap((one) => one.commit());
  for (const { path, content } of outputs)
    if (late.length === 0)
      io.note?.(`written ${path}: ${content.length} ${typeof content === 'string' ? 'characters' : 'bytes'}`);
  for (const { path, content } of outputs) if (path === '-') io.out(content);
  return late;
}
