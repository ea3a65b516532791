import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { openBrowser } from './browser.js';

/** Takes the picture of the demo's sheet that the README shows: `npm run picture`. */
const picture = 'maps/demo/skerry-point.sheet.png';
const folder = mkdtempSync(join(tmpdir(), 'keyslip-picture-'));
const sheet = join(folder, 'sheet.html');
spawnSync(process.execPath, ['dist/keyslip.js', 'sheet', 'maps/demo/skerry-point.cue.yaml', '-o', sheet], {
  stdio: 'inherit',
});
const browser = await openBrowser();
const page = await browser.context.newPage();
await page.setViewportSize({ width: 1360, height: 1470 });
await page.goto(pathToFileURL(sheet).href);
await page.locator('[data-note="n0-3"]').hover();
await page.screenshot({ path: picture });
await browser.close();
rmSync(folder, { recursive: true });
console.log(picture);
