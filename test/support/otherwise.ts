import { rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll } from 'vitest';
import type { run } from '../../src/cli/program.js';
import { keeping, type Said } from './in-process.js';

/**
 * The program with a module put in place of another: built by itself, so that no other test sees that.
 *
 * @param name the module, from src/: `sound/measure/measure`
 * @param text JavaScript; what it stands for it finds beside it: `./measure.js?right`
 * @returns runs a command line in this process
 */
export async function programWith(
  name: string,
  text: string,
): Promise<(words: readonly string[]) => Promise<Said & { readonly status: number }>> {
  const replaced = resolve('src', `${name}.ts`);
  // Where packages are found.
  const outfile = resolve('node_modules/.cache', `keyslip-otherwise-${process.pid}.mjs`);
  afterAll(() => rmSync(outfile));
  await build({
    entryPoints: ['src/cli/program.ts'],
    outfile,
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
    plugins: [
      {
        name: 'otherwise',
        setup(building) {
          building.onLoad({ filter: /[.]ts$/ }, ({ path, suffix }) =>
            path === replaced && suffix === '' ? { contents: text, resolveDir: dirname(path) } : undefined,
          );
        },
      },
    ],
  });
  // The name is another each time, since what was read once is kept.
  const program: { run: typeof run } = await import(`${pathToFileURL(outfile)}?${name}`);
  return async (words) => {
    const { io, said } = keeping();
    return { status: await program.run(words, io), ...said };
  };
}
