import { defineConfig } from 'vitest/config';

// Tests that need programs and files from Debian; external.sh installs them.
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    globalSetup: '.config/source.mjs',
    include: ['test/external/**/*.test.ts'],
    testTimeout: 900_000,
    hookTimeout: 300_000,
  },
});
