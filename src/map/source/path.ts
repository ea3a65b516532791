/** Why a path of a cue or a map cannot be meant; undefined where it stays below its folder, as far as its name tells. */
export function strayPath(path: string): string | undefined {
  if (/^([/\\~]|[A-Za-z]:)/u.test(path)) return 'it begins at the top of the disk, or at a home folder';
  if (path.includes('\\')) return 'it has a backslash in it';
  let depth = 0;
  for (const step of path.split('/')) {
    if (step === '..') depth -= 1;
    else if (step !== '.' && step !== '') depth += 1;
    if (depth < 0) return 'it leaves the folder';
  }
  return depth === 0 ? 'it names no file' : undefined;
}
