import { execFileSync } from 'node:child_process';

/** Puts everything in a folder into a commit of its own, in a repository that is made if there is none. */
export function commitAll(folder: string, message = 'as it is'): void {
  const git = (...words: readonly string[]) => execFileSync('git', words, { cwd: folder, stdio: 'pipe' });
  git('init', '--quiet');
  git('config', 'user.name', 'Test');
  git('config', 'user.email', 'test@example.invalid');
  git('config', 'commit.gpgsign', 'false');
  git('add', '--all');
  git('commit', '--quiet', '--message', message);
}
