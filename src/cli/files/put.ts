import type { Diagnostic } from '../../diagnostics/index.js';
import { type Io, UsageError } from '../io.js';
import { CannotWrite } from './problems.js';
import { type FileStream, streamTo } from './stream.js';
import { isDirect } from './target.js';
import { leftOver } from './temporary.js';

/** Something to be written; the path `-` is standard output. */
export interface Output {
  readonly path: string;
  /** Whole, or in pieces. */
  readonly content: Uint8Array | string | Iterable<Uint8Array>;
}

/**
 * Puts outputs in place, all of them or none. Files are finished beside their places first; then what cannot be taken
 * back is written, to pipes, devices and standard output; then the files get their names.
 * Errors: cannot-write. Warnings: not-kept, left-over.
 *
 * @throws UsageError for bytes that are no text and would go to a terminal, before anything is written
 */
export function putOutputs(outputs: readonly Output[], io: Io): readonly Diagnostic[] {
  refuseTerminal(outputs, io);
  const staged = outputs.map((output) => stage(output, outputs.length > 1));
  const failures = staged.flatMap(({ failure }) => failure ?? []);
  const files = staged.flatMap(({ file }) => file ?? []);
  const done: FileStream[] = [];
  try {
    if (failures.length > 0) throw new CannotWrite(failures);
    outputs.forEach((output, index) => {
      if (!staged[index]?.file) writeDirectly(output, io);
    });
    for (const file of files) {
      file.commit();
      done.push(file);
    }
    for (const file of files) file.settle();
    for (const { path, content } of outputs) io.note?.(`written ${path}${sizeText(content)}`);
    return [...files.flatMap(({ remarks }) => remarks), ...leftOver()];
  } catch (error) {
    const notUndone = done.flatMap((file) => problemsIn(() => file.undo()));
    for (const file of files) if (!done.includes(file)) file.discard();
    return [...problemsOf(error), ...notUndone, ...leftOver()];
  }
}

function refuseTerminal(outputs: readonly Output[], io: Io): void {
  const isRaw = outputs.some(({ path, content }) => path === '-' && typeof content !== 'string');
  if (isRaw && io.isOutTerminal)
    throw new UsageError(
      'standard output is a terminal, and the result is no text',
      'name a file with -o OUT.mid, or lead it on with > OUT.mid or |',
    );
}

/** An output that is finished beside its place; no file where it is written directly. */
interface StagedOutput {
  readonly file?: FileStream;
  readonly failure?: readonly Diagnostic[];
}

function stage({ path, content }: Output, isOneOfSeveral: boolean): StagedOutput {
  try {
    if (isDirect(path)) return {};
    const file = streamTo(path, isOneOfSeveral);
    for (const piece of piecesOf(content)) file.write(piece);
    file.finish();
    return { file };
  } catch (error) {
    return { failure: problemsOf(error) };
  }
}

function problemsIn(act: () => void): readonly Diagnostic[] {
  try {
    act();
    return [];
  } catch (error) {
    return problemsOf(error);
  }
}

function problemsOf(error: unknown): readonly Diagnostic[] {
  if (error instanceof CannotWrite) return error.diagnostics;
  throw error;
}

function writeDirectly({ path, content }: Output, io: Io): void {
  const stream = path === '-' ? undefined : streamTo(path);
  for (const piece of piecesOf(content)) stream ? stream.write(piece) : io.out(piece);
  stream?.commit();
}

function sizeText(content: Output['content']): string {
  if (typeof content === 'string') return `: ${content.length} characters`;
  return content instanceof Uint8Array ? `: ${content.length} bytes` : '';
}

function piecesOf(content: Output['content']): Iterable<Uint8Array> {
  if (typeof content === 'string') return [new TextEncoder().encode(content)];
  return content instanceof Uint8Array ? [content] : content;
}
