import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';
import { keyslip } from '../../support/cli.js';

/** Writes a sheet into a folder, and gives its address. */
export function sheetIn(folder: string, words: readonly string[], name: string): string {
  const path = join(folder, name);
  const { status, err } = keyslip(['sheet', ...words, '-o', path]);
  expect({ status, err }).toMatchObject({ status: 0 });
  return pathToFileURL(path).href;
}

/** A page, and what it complains of as long as it is open. */
export async function openPage(
  context: BrowserContext,
  address: string,
): Promise<{ readonly page: Page; readonly troubles: readonly string[] }> {
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) troubles.push(message.text());
  });
  await page.goto(address);
  return { page, troubles };
}
