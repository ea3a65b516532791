// What tests run of src/: each file without its types, for Node to read by itself. Read through the test runner, which
// makes every import a look-up, the same code takes half as long again.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { globSync } from 'tinyglobby';

const root = fileURLToPath(new URL('..', import.meta.url));
const source = join(root, 'src');
const made = join(root, 'node_modules/.cache/keyslip-src');

/** Makes it, before all tests. */
export default async function setup() {
  rmSync(made, { recursive: true, force: true });
  mkdirSync(made, { recursive: true });
  // What lies in node_modules is no module of this package.
  writeFileSync(join(made, 'package.json'), '{"type": "module"}\n');
  await build({
    absWorkingDir: root,
    entryPoints: globSync('src/**/*.{ts,js}', { cwd: root, ignore: '**/*.d.ts' }),
    outbase: 'src',
    outdir: made,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    sourcemap: 'inline',
    logLevel: 'warning',
  });
}

/** Gives tests what was made in place of a file of src/. */
export const asMade = {
  name: 'source-as-made',
  enforce: 'pre',
  resolveId(id, importer) {
    if (!importer || !id.startsWith('.')) return undefined;
    const file = resolve(dirname(importer), id);
    return file.startsWith(`${source}/`) ? join(made, file.slice(source.length)) : undefined;
  },
};
