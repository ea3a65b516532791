import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { openBrowser } from './browser.js';
import { photograph } from './photograph.js';

/** `npm run picture`: makes the README's picture anew. */
const picture = 'maps/demo/skerry-point.sheet.png';
const folder = mkdtempSync(join(tmpdir(), 'keyslip-picture-'));
const sheet = join(folder, 'sheet.html');
const words = ['dist/keyslip.js', 'sheet', 'maps/demo/skerry-point.cue.yaml', '-o', sheet];
const { status } = spawnSync(process.execPath, words, { stdio: 'inherit' });
if (status !== 0) process.exit(1);
const browser = await openBrowser();
await photograph(browser.context, pathToFileURL(sheet).href, picture);
await browser.close();
rmSync(folder, { recursive: true });
console.log(picture);
