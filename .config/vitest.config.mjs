import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['test/**/*.test.ts'],
    exclude: ['test/external/**', 'node_modules/**'],
    setupFiles: ['.config/properties.mjs'],
    // As many as there are cores: otherwise one core stays free, which is half of a machine with two.
    maxWorkers: '100%',
    testTimeout: 300_000,
    hookTimeout: 120_000,
  },
});
