import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keyslip } from '../support/cli.js';

interface Locked {
  readonly version: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly peer?: boolean;
}

const { version, dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  version: string;
  dependencies: Readonly<Record<string, string>>;
};
const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Readonly<Record<string, Locked>>;
};
const notices = readFileSync('dist/NOTICES.txt', 'utf8').split(`\n${'-'.repeat(80)}\n\n`);
/** Read from where they are installed, never put into a file of ours. */
const leftOut = ['verovio'];

describe('the notices of what stands in the program', () => {
  const headed = (heading: string) => notices.filter((notice) => notice.includes(`${heading}\n\n`));

  it('have every package that the lock file has for those who install keyslip', () => {
    const installed = Object.entries(packages).flatMap(([path, { version, dev, optional, peer }]) => {
      const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
      return path === '' || dev || optional || peer || leftOut.includes(name) ? [] : [`${name} ${version}`];
    });
    expect(installed.length).toBeGreaterThanOrEqual(Object.keys(dependencies).length - leftOut.length);
    expect(installed.filter((name) => headed(name).length !== 1)).toEqual([]);
  });

  it('have the package by which validators are made, whose code is in them', () => {
    expect(headed(`ajv ${packages['node_modules/ajv']?.version}`)).toHaveLength(1);
  });

  it('each have whose it is, and what is granted', () => {
    for (const notice of notices) {
      expect(notice).toMatch(/copyright/iu);
      expect(notice).toMatch(/permission (is hereby granted|to use)|redistribution and use/iu);
    }
  });
});

describe('the package', () => {
  const { stdout } = spawnSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    encoding: 'utf8',
  });
  const [packed] = JSON.parse(stdout) as [{ files: readonly { path: string }[]; unpackedSize: number }];
  const paths = packed.files.map(({ path }) => path);

  it('has the program, the library, types, schemas, maps, papers and notices', () => {
    const needed = ['dist/keyslip.js', 'dist/index.js', 'dist/stages.js', 'dist/types/index.d.ts'];
    const papers = ['LICENSE', 'README.md', 'CHANGELOG.md', 'maps/README.md', 'src/diagnostics/README.md'];
    const data = ['schemas/map.schema.json', 'schemas/cue.schema.json', 'maps/saltmarsh-horns.yaml'];
    expect(paths).toEqual(expect.arrayContaining([...needed, ...papers, ...data, 'dist/NOTICES.txt']));
  });

  it('has nothing else: no tests, no sources, nothing that is only for making it', () => {
    const others = paths.filter(
      (path) =>
        !/^(dist|schemas|maps)\/|^(LICENSE|package\.json|[A-Z]+\.md)$|^src\/diagnostics\/README\.md$/u.test(
          path,
        ),
    );
    expect(others).toEqual([]);
    expect(packed.unpackedSize).toBeLessThan(6e6);
    const testing = ['axe-core', 'playwright-core'];
    for (const path of paths.filter((one) => /^dist\/[^/]+\.(js|txt)$/u.test(one)))
      for (const name of testing)
        expect(readFileSync(path, 'utf8').includes(name), `${path}: ${name}`).toBe(false);
  });
});

it('the program tells its version, the package’s, by both names of the option', () => {
  for (const option of ['-v', '--version'])
    expect(keyslip([option])).toMatchObject({ status: 0, out: `${version}\n`, err: '' });
});
