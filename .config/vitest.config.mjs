import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { asMade } from './source.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  plugins: [asMade],
  test: {
    root,
    include: ['test/**/*.test.ts'],
    exclude: ['test/external/**', 'node_modules/**'],
    globalSetup: ['.config/scratch.mjs', '.config/source.mjs'],
    setupFiles: ['.config/properties.mjs'],
    testTimeout: 300_000,
    hookTimeout: 120_000,
    // As many as there are cores: otherwise one core stays free, which is half of a machine with two.
    maxWorkers: '100%',
    // Modules are loaded once for many tests: loading them for each took a quarter of the time. Where a test needs one
    // that is otherwise, test/support/otherwise.ts makes a program of its own.
    isolate: false,
    // What a test watches of clock or process is the next one's as it was.
    restoreMocks: true,
  },
});
