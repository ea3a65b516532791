// Builds everything that is made: schemas from their fragments, validators from the schemas, the library with its types, and the program in one file.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { build } from 'esbuild';
import { barrels } from './barrels.mjs';
import { noticesOf } from './notices.mjs';
import { writeSchemas } from './schemas.mjs';
import { together } from './together.mjs';

const require = createRequire(import.meta.url);
const { default: Ajv } = await import('ajv/dist/2020.js');
const standalone = require('ajv/dist/standalone').default;

process.chdir(new URL('..', import.meta.url).pathname);
// Everything is built beside the last build, which is there until this one is whole.
const out = 'dist.tmp';
rmSync(out, { recursive: true, force: true });
mkdirSync(out);

/** The names of a schema's definitions of texts, by their pattern. */
function formsOf({ $defs = {} }) {
  return Object.fromEntries(
    Object.entries($defs).flatMap(([name, { pattern }]) => (pattern ? [[pattern, name]] : [])),
  );
}

/**
 * ajv's code of a validator, with what the program asks of errors alone in them, each told by one function, and lists of
 * them joined by adding to them, not by copying all that there are for each item. Two fifths of the text are left.
 */
function lean(code) {
  const better = [
    [/vErrors\.concat\(([\w.]+)\)/gu, 'addErrors(vErrors, $1)'],
    [
      /^(const err\d+ = \{.*),schema:.*,parentSchema:([\w.$"[\]-]+),data(?::data\d+)?\};$/gmu,
      '$1,parentSchema:$2};',
    ],
    [
      /if\(vErrors === null\)\{\nvErrors = \[(\w+)\];\n\}\nelse \{\nvErrors\.push\(\1\);\n\}/gu,
      'vErrors = addErrors(vErrors ?? [], [$1]);',
    ],
  ].reduce((text, [from, to]) => {
    if (text.search(from) < 0)
      throw new Error(`ajv tells of errors in a way that is not known here: no ${from}`);
    return text.replace(from, to);
  }, code);
  if (better.includes('concat')) throw new Error('ajv joins errors in a way that is not known here');
  return `${better}\nfunction addErrors(all, more) {\n  for (const error of more) all.push(error);\n  return all;\n}`;
}

/** A schema without what it says to people. */
function withoutWords(schema) {
  return JSON.parse(JSON.stringify(schema), (key, value) =>
    key === 'description' && typeof value === 'string' ? undefined : value,
  );
}

const judges = await writeSchemas();
/** What the validators are made of, which is part of the program too. */
const ofValidators = [];
/** Compiles each schema ahead of time, so that starting the program does not pay for it. */
for (const file of readdirSync('schemas').filter((name) => name.endsWith('.schema.json'))) {
  const kind = file.slice(0, file.indexOf('.'));
  const ajv = new Ajv({
    allErrors: true,
    verbose: true,
    messages: false,
    strict: true,
    strictRequired: false,
    strictTypes: false,
    allowUnionTypes: true,
    code: { source: true, esm: true, lines: true },
  });
  // What editors say of a text that is not as it should be; the program has words of its own.
  ajv.addKeyword('patternErrorMessage');
  const schema = judges[kind] ?? JSON.parse(readFileSync(`schemas/${file}`, 'utf8'));
  const code = `${lean(standalone(ajv, ajv.compile(withoutWords(schema))))}\nexport const forms = ${JSON.stringify(formsOf(schema))};`;
  const target = `src/${kind}/read/validator.generated`;
  if (!existsSync(`src/${kind}/read`)) continue;
  const { metafile } = await build({
    metafile: true,
    stdin: { contents: code, resolveDir: process.cwd() },
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    outfile: `${target}.js`,
    logLevel: 'warning',
  });
  ofValidators.push(...Object.keys(metafile.inputs));
  const text = readFileSync(`schemas/${file}`, 'utf8');
  writeFileSync(
    `src/${kind}/read/schema.generated.js`,
    `export const schemaText = ${JSON.stringify(text)};\n`,
  );
  writeFileSync(`src/${kind}/read/schema.generated.d.ts`, 'export declare const schemaText: string;\n');
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

/** What a page carries with it: its style, or its script in one piece. */
async function pageAsset(entry) {
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'es2022',
    minify: true,
    legalComments: 'none',
    logLevel: 'warning',
  });
  // The hashes in the page are of the text between the tags, and no text may close its tag.
  const text = outputFiles[0].text.trim();
  if (text.includes('</')) throw new Error(`${entry} would end its own element`);
  return text;
}
/** Pages, by what their parts are called. */
const pages = {
  'src/sheet/page': {
    style: 'style.css',
    script: 'client/main.ts',
    playerStyle: 'player.css',
    playerScript: 'client/player/main.ts',
  },
  'src/desk/page': { style: 'style.css', script: 'client/main.ts' },
};
for (const [folder, assets] of Object.entries(pages)) {
  const texts = [];
  for (const [name, entry] of Object.entries(assets))
    texts.push([name, await pageAsset(`${folder}/${entry}`)]);
  writeFileSync(
    `${folder}/assets.generated.js`,
    texts
      .map(
        ([name, text]) => `export const ${name} = ${JSON.stringify(text)};
`,
      )
      .join(''),
  );
  writeFileSync(
    `${folder}/assets.generated.d.ts`,
    texts
      .map(
        ([name]) => `export declare const ${name}: string;
`,
      )
      .join(''),
  );
}

// The version stands in package.json alone.
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
writeFileSync('src/cli/version.generated.js', `export const version = ${JSON.stringify(version)};\n`);
writeFileSync(
  'src/cli/version.generated.d.ts',
  "/** The program's version. */\nexport declare const version: string;\n",
);

// Types are made while the rest is.
const tsc = require.resolve('typescript/package.json').replace('package.json', 'bin/tsc');
const types = spawn(
  process.execPath,
  [tsc, '-p', '.config/tsconfig.build.json', '--outDir', `${out}/types`],
  {
    stdio: 'inherit',
  },
);
const typesEnd = once(types, 'close');

// The library, with what it needs left to whoever installs it.
await build({
  entryPoints: { index: 'src/index.ts', stages: 'src/stages.ts' },
  bundle: true,
  splitting: true,
  chunkNames: 'library-[hash]',
  packages: 'external',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outdir: out,
  logLevel: 'warning',
});

/** Each command in a file of its own, so that starting one does not read what only the others need. */
const program = {
  metafile: true,
  entryPoints: { keyslip: 'src/cli/main.ts' },
  bundle: true,
  splitting: true,
  chunkNames: 'keyslip-[hash]',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outdir: out,
  // The engraver is large, and what makes sound is optional: both are read from where they are installed, when asked for.
  external: ['verovio', 'spessasynth_core', 'stb-vorbis', 'wasm-media-encoders'],
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  banner: {
    js: "#!/usr/bin/env node\nimport { createRequire as keyslipRequire } from 'node:module'; const require = keyslipRequire(import.meta.url);",
  },
  logLevel: 'warning',
};
const apart = await build({ ...program, plugins: [barrels()], write: false });
const { before, plugin } = together(apart.metafile.outputs, 'src/cli/main.ts', 'src/cli/commands/compile.ts');
const { metafile } = await build({
  ...program,
  plugins: [plugin, barrels(before)],
  // What is put together is named without anything of it.
  logOverride: { 'ignored-bare-import': 'silent' },
});
chmodSync(`${out}/keyslip.js`, 0o755);

const [failed] = await typesEnd;
if (failed !== 0) {
  console.error('build: there are type errors');
  process.exit(1);
}
const generated = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.includes('.generated.'),
);
for (const name of generated) if (name.endsWith('.d.ts')) cpSync(`src/${name}`, `${out}/types/${name}`);

writeFileSync(`${out}/NOTICES.txt`, noticesOf([...ofValidators, ...Object.keys(metafile.inputs)]));
rmSync('dist', { recursive: true, force: true });
renameSync(out, 'dist');
