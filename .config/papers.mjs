// Writes what the papers have from the program: outputs that are shown, the keys of maps and cues, the list of codes.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { referenceOf } from './reference.mjs';

const { codes } = await import('../dist/index.js');
const { knownMarks } = await import('../dist/stages.js');
const isCheck = process.argv.includes('--check');

/** A folder as the papers speak of it: the maps of the project, and the file that their first command writes. */
const folder = mkdtempSync(join(tmpdir(), 'keyslip-papers-'));
for (const name of ['maps', 'schemas']) symlinkSync(resolve(name), join(folder, name));
const keyslip = (words) =>
  execFileSync(process.execPath, [resolve('dist/keyslip.js'), ...words], { cwd: folder, encoding: 'utf8' });
keyslip('compile maps/demo/last-boat.mid --map maps/saltmarsh-horns.yaml -o switched.mid'.split(' '));

const schema = (kind) => JSON.parse(readFileSync(`schemas/${kind}.schema.json`, 'utf8'));
const parts = {
  'map keys': () => referenceOf(schema('map')).keys,
  conditions: () => referenceOf(schema('map')).conditions,
  marks: () => `${knownMarks.map((name) => `\`${name}\``).join(', ')}.`,
  'cue keys': () => referenceOf(schema('cue')).keys,
  codes: () =>
    [
      '| code | | means |',
      '|---|---|---|',
      ...Object.entries(codes).map(
        ([code, { severity, means }]) => `| \`${code}\` | ${severity} | ${means} |`,
      ),
    ].join('\n'),
};

/** A paper with all that is made from the program as it is now. */
function remade(text) {
  return text
    .replace(/<!-- made: ([a-z ]+) -->\n[\s\S]*?<!-- \/made -->/gu, (_, name) => {
      return `<!-- made: ${name} -->\n${parts[name]()}\n<!-- /made -->`;
    })
    .replace(/<!-- run: keyslip (.+?) -->\n```\n[\s\S]*?```/gu, (_, words) => {
      return `<!-- run: keyslip ${words} -->\n\`\`\`\n${keyslip(words.split(' '))}\`\`\``;
    });
}

try {
  for (const file of ['README.md', 'maps/README.md', 'src/diagnostics/README.md']) {
    const before = readFileSync(file, 'utf8');
    const after = remade(before);
    if (after === before) continue;
    if (isCheck) {
      console.error(`${file} is not as the program is: npm run papers`);
      process.exitCode = 1;
    } else writeFileSync(file, after);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
