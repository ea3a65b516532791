// Writes the parts of the README that are made from the program: the table of codes and the outputs shown.
import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';

const { codes } = await import('../dist/index.js');
// The file that the shown commands speak of.
execFileSync(process.execPath, [
  'dist/keyslip.js',
  ...'compile maps/demo/last-boat.mid --map maps/saltmarsh-horns.yaml -o switched.mid'.split(' '),
]);
const rows = Object.entries(codes).map(([code, { means }]) => `| \`${code}\` | ${means} |`);
const table = ['<!-- codes -->', '| code | means |', '|---|---|', ...rows, '<!-- /codes -->'].join('\n');
const text = readFileSync('README.md', 'utf8')
  .replace(/<!-- codes -->[\s\S]*?<!-- \/codes -->/u, () => table)
  .replace(/<!-- run: keyslip (.+?) -->\n```\n[\s\S]*?```/gu, (_, words) => {
    const out = execFileSync(process.execPath, ['dist/keyslip.js', ...words.split(' ')], {
      encoding: 'utf8',
    });
    return `<!-- run: keyslip ${words} -->\n\`\`\`\n${out}\`\`\``;
  });
writeFileSync('README.md', text);
rmSync('switched.mid');
