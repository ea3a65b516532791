// node .config/schemas.mjs: writes the schemas of maps and cues from their fragments in src/.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Validators are made from the schemas; nothing that is asked for here needs one. */
const generatedLeftOut = {
  name: 'generated-left-out',
  setup: ({ onResolve }) =>
    onResolve({ filter: /\.generated\.js$/ }, ({ path }) => ({ path, external: true, sideEffects: false })),
};

/** Writes `schemas/*.schema.json`, and gives the schemas that the program judges by: of maps, with their bases under them. */
export async function writeSchemas() {
  // Inside node_modules, so that the bundle finds the packages that it imports.
  const cache = join(root, 'node_modules/.cache/keyslip/');
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, 'schemas-'));
  try {
    const outfile = join(folder, 'schemas.mjs');
    await build({
      stdin: {
        contents: `export { cueSchema } from './src/cue/schema/index.ts';
export { mapSchema, wholeMapSchema } from './src/map/schema/index.ts';`,
        resolveDir: root,
      },
      outfile,
      bundle: true,
      platform: 'node',
      target: 'node20',
      format: 'esm',
      packages: 'external',
      logLevel: 'error',
      plugins: [generatedLeftOut],
    });
    const { cueSchema, mapSchema, wholeMapSchema } = await import(pathToFileURL(outfile).href);
    for (const [name, schema] of Object.entries({ cue: cueSchema(), map: mapSchema() }))
      writeFileSync(join(root, `schemas/${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
    return { cue: cueSchema(), map: wholeMapSchema() };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await writeSchemas();
