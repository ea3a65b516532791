// Before the tests: the program's function in a file of its own, for the process in which tests run many command lines.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

export default async function setup() {
  await build({
    absWorkingDir: root,
    entryPoints: { program: 'src/cli/program.ts' },
    bundle: true,
    splitting: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    outdir: 'node_modules/.cache/keyslip-warm',
    outExtension: { '.js': '.mjs' },
    logLevel: 'warning',
  });
}
