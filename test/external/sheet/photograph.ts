import type { BrowserContext } from 'playwright-core';

/** Takes the picture of the demo's sheet that the README shows: the first system, one note pointed at. */
export async function photograph(context: BrowserContext, address: string, path: string): Promise<void> {
  const page = await context.newPage();
  await page.setViewportSize({ width: 1360, height: 1470 });
  await page.goto(address);
  await page.locator('[data-note="n0-3"]').hover();
  await page.screenshot({ path });
  await page.close();
}

/** The width and height of a PNG, in pixels (ISO 15948, 11.2.1: the first chunk is IHDR). */
export function sizeOfPng(bytes: Buffer): readonly [width: number, height: number] {
  if (bytes.toString('latin1', 1, 4) !== 'PNG') throw new Error('this is no PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}
