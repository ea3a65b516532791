import { field, type Source, text } from '../../map/index.js';
import type { Tree } from '../../yaml/index.js';

/**
 * Reports an output that could be anything but music: a cue may come from a stranger, and what it names is written.
 * output-not-music: it does not end as MIDI files do, or it or a folder on its way is hidden.
 */
export function checkOutput(source: Source, root: Tree): void {
  const tree = field(root, 'output');
  const path = text(source, tree);
  if (!tree || path === undefined) return;
  const problem = problemOf(path);
  if (problem !== undefined)
    source.report(
      'output-not-music',
      tree,
      problem,
      'a cue writes MIDI files only, beside it or in folders that can be seen: out.mid',
    );
}

function problemOf(path: string): string | undefined {
  const steps = path.split('/').filter((step) => step !== '.' && step !== '..');
  if (path === '-') return 'a cue cannot write to standard output; that is said on the command line (-o -)';
  if (steps.some((step) => step.startsWith('.')))
    return 'the output or its folder is hidden: its name begins with a dot';
  return /\.midi?$/iu.test(path) ? undefined : 'the output does not end in .mid';
}
