import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';

const problems: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'permission is denied',
  EPERM: 'it is not allowed',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of the path is a file, not a folder',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'it would be larger than the system allows',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
  EIO: 'the disk reports a fault',
  ETXTBSY: 'it is in use',
  ENXIO: 'nobody reads from it',
  EPIPE: 'its reader has gone away',
};

/** The system's name for what went wrong (ENOENT); '' where it is nothing of the system's. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

/** What went wrong with a file, in words. */
export function fileProblem(error: unknown): string {
  const code = codeOf(error);
  if (code === 'ERR_INVALID_ARG_VALUE') return 'its name has a character that file names cannot have';
  return (
    problems[code] ?? (code ? `the system reports ${code}` : 'for a reason that the system does not tell')
  );
}

/** What was wrong with a file, thrown out of whatever was writing to it. */
export class CannotWrite extends Error {
  constructor(readonly diagnostics: readonly Diagnostic[]) {
    super(diagnostics.map(({ message }) => message).join('; '));
  }
}

/** @param file a path, or `-` */
export function readProblem(file: string, reason: string, hint?: string): Diagnostic {
  return diagnostic('cannot-read', { kind: 'file', file }, `cannot be read: ${reason}`, hint);
}

/** @param file a path, or `-` for standard output */
export function writeFailure(file: string, reason: string, hint?: string): CannotWrite {
  const isStream = file === '-';
  const otherwise = isStream
    ? 'give the output another place'
    : 'the file that was there before, if any, is as it was';
  const place = { kind: 'file', file: isStream ? 'standard output' : file } as const;
  return new CannotWrite([
    diagnostic('cannot-write', place, `cannot be written: ${reason}`, hint ?? otherwise),
  ]);
}

/** Does something to a file; what goes wrong is thrown as CannotWrite. */
export function guarded<T>(file: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    throw error instanceof CannotWrite ? error : writeFailure(file, fileProblem(error));
  }
}
