// Which of the program's files become one. The bundler makes a file for each set of commands that want the same, 68 of them
// for `compile`, and to find, read and link those takes Node.js longer than one file of all that is in them. Here these sets are
// made alike: whatever is read on demand and wants some of what the program starts with, or of what `compile` wants, is
// said to want the whole of it. Nearly every command wants four fifths of that anyhow; those that want none of it stay small.
import { resolve } from 'node:path';

const prefix = 'together:';

/**
 * Learns from a build what belongs together, for another build.
 *
 * @param outputs of the first build, in esbuild's metafile
 * @param start the file that the program begins with
 * @param command the file of the command that is to read few files
 * @returns what to put before the text of a file, and a plugin that knows what that means
 */
export function together(outputs, start, command) {
  // The first file waits for the command, which would wait for it, were it among what the command reads.
  const atStart = filesOf(outputs, start).filter((file) => file !== start);
  const core = filesOf(outputs, command).filter((file) => file !== command && !atStart.includes(file));
  const groups = { start: atStart, core };
  /** By file that is read on demand: the groups that it wants some of. */
  const wanted = new Map();
  for (const { entryPoint } of Object.values(outputs)) {
    if (entryPoint === undefined || entryPoint === start) continue;
    const files = filesOf(outputs, entryPoint);
    const names = Object.keys(groups).filter((name) => groups[name].some((file) => files.includes(file)));
    wanted.set(resolve(entryPoint), names);
  }
  return {
    before: (path) => (wanted.get(path) ?? []).map((name) => `import '${prefix}${name}'; `).join(''),
    plugin: {
      name: 'together',
      setup: ({ onResolve, onLoad }) => {
        // It has none; but what has none is not even looked at where nothing of it is named.
        const isKept = { sideEffects: true };
        onResolve({ filter: /^together:/ }, ({ path }) => ({ path, namespace: 'together', ...isKept }));
        onLoad({ filter: /.*/, namespace: 'together' }, ({ path }) => ({
          contents: groups[path.slice(prefix.length)]
            .map((file) => `import ${JSON.stringify(`./${file}`)};`)
            .join('\n'),
          resolveDir: process.cwd(),
        }));
      },
    },
  };
}

/** The sources that a file brings with it, from whichever files of the build they are in. */
function filesOf(outputs, entryPoint) {
  const [first] = Object.keys(outputs).filter((name) => outputs[name].entryPoint === entryPoint);
  const names = new Set([first]);
  for (const name of names)
    for (const { path, kind } of outputs[name].imports)
      if (kind === 'import-statement' && path in outputs) names.add(path);
  return [...names].flatMap((name) => Object.keys(outputs[name].inputs));
}
