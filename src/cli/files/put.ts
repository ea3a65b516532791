import type { Diagnostic } from '../../diagnostics/index.js';
import { type Io, UsageError } from '../io.js';
import { CannotWrite } from './problems.js';
import { type FileStream, streamTo } from './stream.js';
import { isDirect } from './target.js';
import { leftOver } from './temporary.js';

/** Something to be written; the path `-` is standard output. */
export interface Output {
  readonly path: string;
  /** Whole, or in pieces that are made as they are written. */
  readonly content: Uint8Array | string | Iterable<Uint8Array> | TextPieces;
}

export interface TextPieces {
  readonly text: Iterable<string>;
}

/** What is written of an output. */
interface Written {
  readonly pieces: Iterable<Uint8Array>;
  /** How much it was, once it is written. */
  sizeText(): string;
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
  const staged = outputs.map(({ path, content }) => {
    const written = writtenOf(content);
    return { path, written, ...stage(path, written, outputs.length > 1) };
  });
  const failures = staged.flatMap(({ failure }) => failure ?? []);
  const files = staged.flatMap(({ file }) => file ?? []);
  const done: FileStream[] = [];
  try {
    if (failures.length > 0) throw new CannotWrite(failures);
    for (const { path, written, file } of staged) if (!file) writeDirectly(path, written, io);
    for (const file of files) {
      file.commit();
      done.push(file);
    }
    for (const file of files) file.settle();
    for (const { path, written } of staged) io.note?.(`written ${path}${written.sizeText()}`);
    return [...files.flatMap(({ remarks }) => remarks), ...leftOver()];
  } catch (error) {
    const notUndone = done.flatMap((file) => problemsIn(() => file.undo()));
    for (const file of files) if (!done.includes(file)) file.discard();
    return [...problemsOf(error), ...notUndone, ...leftOver()];
  }
}

function refuseTerminal(outputs: readonly Output[], io: Io): void {
  const isRaw = outputs.some(({ path, content }) => path === '-' && !isText(content));
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

function stage(path: string, { pieces }: Written, isOneOfSeveral: boolean): StagedOutput {
  try {
    if (isDirect(path)) return {};
    const file = streamTo(path, isOneOfSeveral);
    for (const piece of pieces) file.write(piece);
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

function writeDirectly(path: string, { pieces }: Written, io: Io): void {
  const stream = path === '-' ? undefined : streamTo(path);
  for (const piece of pieces) stream ? stream.write(piece) : io.out(piece);
  stream?.commit();
}

function isText(content: Output['content']): content is string | TextPieces {
  return typeof content === 'string' || 'text' in content;
}

function writtenOf(content: Output['content']): Written {
  if (isText(content)) return writtenText(typeof content === 'string' ? [content] : content.text);
  if (!(content instanceof Uint8Array)) return { pieces: content, sizeText: () => '' };
  return { pieces: [content], sizeText: () => `: ${content.length} bytes` };
}

function writtenText(text: Iterable<string>): Written {
  const encoder = new TextEncoder();
  let characters = 0;
  return {
    pieces: encoded(),
    sizeText: () => `: ${characters} characters`,
  };

  function* encoded(): Generator<Uint8Array> {
    for (const piece of text) {
      characters += piece.length;
      yield encoder.encode(piece);
    }
  }
}
