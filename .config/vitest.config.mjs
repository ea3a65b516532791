import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { globSync } from 'tinyglobby';
import { defineConfig } from 'vitest/config';
import { asMade } from './source.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const notHere = ['test/external/**', 'node_modules/**'];

/** Tests that put others in place of modules, which no other test may see. */
const apart = globSync('test/**/*.test.ts', { cwd: root, ignore: notHere }).filter((file) =>
  readFileSync(join(root, file), 'utf8').includes('vi.mock('),
);

const shared = { root, setupFiles: ['.config/properties.mjs'], testTimeout: 300_000, hookTimeout: 120_000 };

export default defineConfig({
  test: {
    root,
    globalSetup: '.config/source.mjs',
    // As many as there are cores: otherwise one core stays free, which is half of a machine with two.
    maxWorkers: '100%',
    projects: [
      // Modules are loaded once for many tests: loading them for each took a quarter of the time.
      {
        plugins: [asMade],
        test: {
          ...shared,
          name: 'together',
          include: ['test/**/*.test.ts'],
          exclude: [...notHere, ...apart],
          isolate: false,
          // What a test watches of clock or process is the next one's as it was.
          restoreMocks: true,
        },
      },
      { test: { ...shared, name: 'apart', include: apart, exclude: notHere } },
    ],
  },
});
