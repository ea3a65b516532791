import { execFileSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** An empty project into which the package was put as npm packs it, beside the packages that it asks for. */
let project: string;

beforeAll(() => {
  project = mkdtempSync(join(tmpdir(), 'keyslip-project-'));
  const [{ filename }] = JSON.parse(
    execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', project], {
      encoding: 'utf8',
    }),
  ) as [{ filename: string }];
  execFileSync('tar', ['-xzf', filename], { cwd: project });
  mkdirSync(join(project, 'node_modules'));
  cpSync(join(project, 'package'), join(project, 'node_modules/keyslip'), { recursive: true });
  for (const name of readdirSync('node_modules').filter((one) => !one.startsWith('.')))
    symlinkSync(resolve('node_modules', name), join(project, 'node_modules', name));
  writeFileSync(join(project, 'package.json'), '{ "type": "module" }\n');
  cpSync('maps', join(project, 'maps'), { recursive: true });
}, 120_000);

afterAll(() => rmSync(project, { recursive: true, force: true }));

function inProject(file: string, text: string, command: string, args: readonly string[]): string {
  mkdirSync(dirname(join(project, file)), { recursive: true });
  writeFileSync(join(project, file), text);
  return execFileSync(command, args, { cwd: project, encoding: 'utf8' });
}

/** The example that the README shows. */
function example(): string {
  const [, text] =
    /```ts\n([\s\S]*?from 'keyslip'[\s\S]*?)```/u.exec(readFileSync('README.md', 'utf8')) ?? [];
  if (text === undefined) throw new Error('the README has no example of the library');
  return text;
}

describe('the package', () => {
  it("runs the README's example", () => {
    const out = inProject('example.mjs', example(), process.execPath, ['example.mjs']);
    expect(out).toContain('38 notes');
    expect(readFileSync(join(project, 'switched.mid')).subarray(0, 4).toString()).toBe('MThd');
  });

  it.each(['node16', 'bundler'])(
    'has its types for strict programs under %s, checked as well',
    (resolution) => {
      const module = resolution === 'node16' ? 'node16' : 'esnext';
      const words = `--strict --noEmit --skipLibCheck false --target es2022 --types node --module ${module} --moduleResolution ${resolution}`;
      const program = `${example()}\nimport { readMidi } from 'keyslip/stages';\nexport const read: typeof readMidi = readMidi;\n`;
      const tsc = resolve('node_modules/typescript/bin/tsc');
      expect(inProject('typed.ts', program, process.execPath, [tsc, ...words.split(' '), 'typed.ts'])).toBe(
        '',
      );
    },
  );

  it('takes the engraver only when a sheet is asked for', () => {
    const program =
      "import 'keyslip';\nconsole.log(Object.keys(process.moduleLoadList ?? {}).length, process.memoryUsage().arrayBuffers < 8e6);\n";
    expect(inProject('light.mjs', program, process.execPath, ['light.mjs'])).toContain('true');
  });
});
