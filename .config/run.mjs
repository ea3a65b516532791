// node .config/run.mjs FILE.ts [ARGUMENTS…]: bundles a TypeScript file, leaving packages out, and runs it.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { constants } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const [entry, ...args] = process.argv.slice(2);
if (entry === undefined) {
  console.error('usage: node .config/run.mjs FILE.ts [ARGUMENTS…]');
  process.exit(2);
}

// Inside node_modules, so that the bundle finds the packages that it imports.
const cache = fileURLToPath(new URL('../node_modules/.cache/keyslip/', import.meta.url));
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'run-'));

function run() {
  const script = join(folder, `${basename(entry).replace(/\.[cm]?ts$/, '')}.mjs`);
  return build({
    entryPoints: [entry],
    outfile: script,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    sourcemap: 'inline',
    logLevel: 'error',
  }).then(
    () => {
      const { status, signal } = spawnSync(process.execPath, [script, ...args], { stdio: 'inherit' });
      return status ?? 128 + (signal ? constants.signals[signal] : 0);
    },
    () => 1,
  );
}

try {
  process.exitCode = await run();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
