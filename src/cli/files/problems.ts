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
  ENXIO: 'nothing listens on it',
};

/** What went wrong with a file, in words. */
export function fileProblem(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ERR_INVALID_ARG_VALUE') return 'its name has a character that file names cannot have';
  return (
    problems[code] ?? (code ? `the system reports ${code}` : 'for a reason that the system does not tell')
  );
}
