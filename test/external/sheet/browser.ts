import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';

/** Debian's browser, installed by .config/external.sh. */
export const executablePath = '/usr/bin/chromium';

/** A browser with a profile of its own, which asks nothing of anyone. */
export interface TestBrowser {
  readonly context: BrowserContext;
  close(): Promise<void>;
}

export async function openBrowser(): Promise<TestBrowser> {
  const profile = mkdtempSync(join(tmpdir(), 'keyslip-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    headless: true,
    viewport: { width: 1360, height: 900 },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return {
    context,
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
