// Builds everything that is made: validators from the schemas, the library with its types, and the program in one file.
import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { build } from 'esbuild';

const require = createRequire(import.meta.url);
const { default: Ajv } = await import('ajv/dist/2020.js');
const standalone = require('ajv/dist/standalone').default;

process.chdir(new URL('..', import.meta.url).pathname);
rmSync('dist', { recursive: true, force: true });
mkdirSync('dist');

/** The names of a schema's definitions of texts, by their pattern. */
function formsOf({ $defs = {} }) {
  return Object.fromEntries(
    Object.entries($defs).flatMap(([name, { pattern }]) => (pattern ? [[pattern, name]] : [])),
  );
}

/** Compiles each schema ahead of time, so that starting the program does not pay for it. */
for (const file of readdirSync('schemas').filter((name) => name.endsWith('.schema.json'))) {
  const kind = file.slice(0, file.indexOf('.'));
  const ajv = new Ajv({
    allErrors: true,
    verbose: true,
    strict: true,
    strictRequired: false,
    strictTypes: false,
    allowUnionTypes: true,
    code: { source: true, esm: true, lines: true },
  });
  const schema = JSON.parse(readFileSync(`schemas/${file}`, 'utf8'));
  const code = `${standalone(ajv, ajv.compile(schema))}\nexport const forms = ${JSON.stringify(formsOf(schema))};`;
  const target = `src/read/${kind}/validator.generated`;
  if (!existsSync(`src/read/${kind}`)) continue;
  await build({
    stdin: { contents: code, resolveDir: process.cwd() },
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile: `${target}.js`,
    logLevel: 'warning',
  });
  writeFileSync(
    `${target}.d.ts`,
    `export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly parentSchema: Readonly<Record<string, unknown>>;
}
/** The names of the schema's definitions of texts, by their pattern. */
export declare const forms: Readonly<Record<string, string>>;
declare const validate: ((data: unknown) => boolean) & { errors?: readonly SchemaError[] | null };
export default validate;
`,
  );
}

const tsc = require.resolve('typescript/package.json').replace('package.json', 'bin/tsc');
execFileSync(process.execPath, [tsc, '-p', '.config/tsconfig.build.json'], { stdio: 'inherit' });
const generated = readdirSync('src/read', { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.includes('.generated.'),
);
for (const name of generated) cpSync(`src/read/${name}`, `dist/read/${name}`);

await build({
  entryPoints: ['src/cli/main.ts'],
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outfile: 'dist/keyslip.js',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  banner: {
    js: "#!/usr/bin/env node\nimport { createRequire as keyslipRequire } from 'node:module'; const require = keyslipRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
chmodSync('dist/keyslip.js', 0o755);
