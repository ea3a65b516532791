import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../../src/report/decisions.js';
import { keyslip, scratchFolder } from '../../support/cli.js';
import { bytesOf, trackOf } from '../../support/song.js';
import { openBrowser, type TestBrowser } from './browser.js';
import { contrast } from './contrast.js';
import { photograph, sizeOfPng } from './photograph.js';

const folder = scratchFolder();
const demo = 'maps/demo/skerry-point.cue.yaml';
const hostileName = '<img src=x onerror="window.hurt = 1">';
/** A mark that turns the direction of writing round. */
const turn = '\u202e';

let browser: TestBrowser;
/** Every address that a page asked for. */
const asked: string[] = [];

beforeAll(async () => {
  browser = await openBrowser();
  browser.context.on('request', (request) => asked.push(request.url()));
});
afterAll(() => browser.close());

/** The sheet of a file, and the report of the same decisions. */
function sheetOf(words: readonly string[], name: string): string {
  const path = join(folder, name);
  const { status, err } = keyslip(['sheet', ...words, '-o', path]);
  expect({ status, err }).toMatchObject({ status: 0 });
  return pathToFileURL(path).href;
}

async function opened(address: string): Promise<Page> {
  const page = await browser.context.newPage();
  const troubles: string[] = [];
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') troubles.push(message.text());
  });
  await page.goto(address);
  expect(troubles).toEqual([]);
  return page;
}

function reportOf(): Report {
  const report = join(folder, 'report.json');
  keyslip(['cue', demo, '-o', join(folder, 'out.mid'), '--report', report]);
  return JSON.parse(readFileSync(report, 'utf8')) as Report;
}

/** A text as events hold it: a character for each byte. */
function utf8(text: string): string {
  return Buffer.from(text).toString('latin1');
}

describe("the demo's sheet in a browser", () => {
  let page: Page;
  const report = reportOf();
  const bases = report.parts.filter(({ name }) => !name.includes(' – '));
  const layers = report.parts.filter(({ name }) => name.includes(' – '));

  beforeAll(async () => {
    page = await opened(sheetOf([demo], 'demo.html'));
  });

  it('has a head for every note of the report, and a mark for every note of a layer', async () => {
    const notes = bases.reduce((sum, part) => sum + part.notes.length, 0);
    const layered = layers.reduce((sum, part) => sum + part.notes.length, 0);
    expect(notes).toBeGreaterThan(100);
    expect(layered).toBeGreaterThan(0);
    expect(await page.locator('.system .head').count()).toBe(notes);
    expect(await page.locator('.system .layered').count()).toBe(layered);
  });

  it('has every switch of the report', async () => {
    const switches = report.parts.flatMap(({ track, notes }) =>
      notes.flatMap(({ switchTick, articulation }) =>
        switchTick === null ? [] : [`${track} ${switchTick} ${articulation}`],
      ),
    );
    expect(await page.locator('.system .switch').count()).toBe(new Set(switches).size);
  });

  it('draws every head where the engraver drew a note', async () => {
    // An engraved head lies under each, and is inside it.
    const misses = await page.evaluate(() => {
      const far = [];
      for (const head of document.querySelectorAll('.head')) {
        const { x, y, width, height } = head.getBoundingClientRect();
        const drawn = [...(head.closest('svg')?.querySelectorAll('.notehead') ?? [])].some((one) => {
          const box = one.getBoundingClientRect();
          const [middleX, middleY] = [box.x + box.width / 2, box.y + box.height / 2];
          return middleX > x && middleX < x + width && middleY > y && middleY < y + height;
        });
        if (!drawn) far.push(head.getAttribute('data-note'));
      }
      return far;
    });
    expect(misses).toEqual([]);
  });

  it('says why a note that is pointed at got its articulation', async () => {
    const [first] = bases;
    await page.locator('[data-note="n0-0"]').hover();
    const told = await page.locator('#why').textContent();
    expect(told).toContain(first?.notes[0]?.articulation ?? '?');
    expect(told).toMatch(/harbour-light-horns\.yaml:\d+: /u);
    expect(told).toContain(`bar ${first?.notes[0]?.bar}, beat ${first?.notes[0]?.beat}`);
  });

  it('means the nearest of heads that stand close, each of which is easy to hit (WCAG 2.2, 2.5.8: 24 px)', async () => {
    // The horns' chords.
    const heads = page.locator('[data-note^="n0-"]');
    for (let index = 0; index < (await heads.count()); index++) {
      const head = heads.nth(index);
      const { x = 0, y = 0, width = 0, height = 0 } = (await head.boundingBox()) ?? {};
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(24);
      await head.scrollIntoViewIfNeeded();
      const now = (await head.boundingBox()) ?? { x, y, width, height };
      await page.mouse.move(now.x + now.width / 2, now.y + now.height / 2);
      const ringed = page.locator('.head:has(+ .ring)');
      expect(await ringed.getAttribute('data-note')).toBe(`n0-${index}`);
    }
    await page.mouse.move(0, 0);
    await page.keyboard.press('Escape');
  });

  it('can be read by keyboard alone', async () => {
    await page.reload();
    await page.locator('.legend summary').focus();
    for (let press = 0; press < 30; press++) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.hasAttribute('data-note'))) break;
    }
    const at = () => page.evaluate(() => document.activeElement?.getAttribute('data-note'));
    expect(await at()).toBe('n0-0');
    await page.keyboard.press('ArrowRight');
    expect(await at()).toBe('n0-1');
    expect(await page.locator('#why').isVisible()).toBe(true);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toContain('bar');
    await page.keyboard.press('ArrowDown');
    expect(await at()).toMatch(/^n1-/u);
    await page.keyboard.press('End');
    const last = (bases[1]?.notes.length ?? 0) - 1;
    expect(await at()).toBe(`n1-${last}`);
    await page.keyboard.press('Escape');
    expect(await page.locator('#why').isVisible()).toBe(false);
  });

  it('has enough contrast in light and dark (WCAG 2.2, 1.4.3: 4.5 to 1)', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const [paper, ...inks] = await page.evaluate(() => {
        const style = (selector: string, property: string) => {
          const found = document.querySelector(selector);
          return found ? getComputedStyle(found).getPropertyValue(property) : '';
        };
        return [
          style('body', 'background-color'),
          style('body', 'color'),
          style('header p', 'color'),
          style('.runs .names', 'fill'),
          style('.runs .what', 'fill'),
          style('.glance text', 'fill'),
          style('.overview p', 'color'),
          style('.mark', 'fill'),
          style('.balance text', 'fill'),
          style('text.number', 'fill'),
        ];
      });
      for (const ink of inks) expect(contrast(ink ?? '', paper ?? '')).toBeGreaterThanOrEqual(4.5);
    }
    await page.emulateMedia({ colorScheme: 'light' });
  });

  it('is no wider than a window of 320 px, as at 400 % zoom (WCAG 2.2, 1.4.10)', async () => {
    await page.setViewportSize({ width: 320, height: 256 });
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBeLessThanOrEqual(320);
    // The music itself keeps its size, and is moved sideways in its own frame.
    expect(await page.evaluate(() => document.querySelector('.system svg')?.clientWidth)).toBeGreaterThan(
      800,
    );
    await page.setViewportSize({ width: 1360, height: 900 });
  });

  it('prints on pages, each system whole', async () => {
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('#why').isVisible()).toBe(false);
    const breaks = await page.evaluate(() => {
      const system = document.querySelector('.system');
      return system ? getComputedStyle(system).breakInside : '';
    });
    expect(breaks).toBe('avoid');
    const pdf = await page.pdf();
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    await page.emulateMedia({ media: 'screen' });
  });

  it('leads from a warning or an observation to its bar', async () => {
    const links = await page.locator('.remarks a').count();
    for (let index = 0; index < links; index++) {
      const target = await page.locator('.remarks a').nth(index).getAttribute('href');
      expect(await page.locator(target ?? '#none').count()).toBe(1);
    }
  });

  it('can be photographed, as the README shows it', async () => {
    const path = join(folder, 'picture.png');
    await photograph(browser.context, page.url(), path);
    const picture = readFileSync(path);
    const shown = readFileSync('maps/demo/skerry-point.sheet.png');
    expect(sizeOfPng(picture)).toEqual(sizeOfPng(shown));
    // Fonts and browsers differ between machines; a page that is blank, or another one, differs by more than they do.
    expect(picture.length / shown.length).toBeGreaterThan(0.7);
    expect(picture.length / shown.length).toBeLessThan(1.4);
  });
});

it('the sheet of a recording says of each note what explain says', async () => {
  const words = ['maps/demo/last-boat.mid', '--map', 'maps/saltmarsh-horns.yaml'];
  const explained = keyslip(['explain', ...words])
    .out.trim()
    .split('\n')
    .slice(1);
  const page = await opened(sheetOf(words, 'take.html'));
  expect(await page.locator('.head').count()).toBe(explained.length);
  await page.locator('[data-note="n0-0"]').focus();
  for (const line of explained) {
    const [name, why] = await page
      .locator('#why')
      .evaluate((panel) => [
        panel.querySelector('em')?.textContent ?? '?',
        panel.querySelector('li')?.textContent ?? '?',
      ]);
    expect(line).toContain(`  ${name} `);
    expect(line).toContain(why);
    await page.keyboard.press('ArrowRight');
  }
});

describe('a hostile file', () => {
  it('shows its names as text', async () => {
    const line = [0, 480, 960].map((tick) => ({ tick, end: tick + 200, pitch: 50 }));
    const recording = join(folder, 'hostile.mid');
    writeFileSync(recording, bytesOf([trackOf(line, [], hostileName + utf8(turn))]));
    const page = await opened(sheetOf([recording, '--map', 'maps/saltmarsh-horns.yaml'], 'hostile.html'));
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false);
    expect(await page.locator('.page-margin .label').first().textContent()).toContain(hostileName);
    expect(await page.content()).not.toContain(turn);
    expect(await page.locator('th', { hasText: hostileName }).count()).toBe(1);
    await page.locator('[data-note="n0-0"]').hover();
    expect(await page.locator('#why').textContent()).toContain(hostileName);
    expect(await page.locator('img').count()).toBe(0);
  });
});

describe('a hostile cue', () => {
  it('shows its title, its parts and its libraries as text', async () => {
    const script = '</title></style></script><script>window.hurt = 1</script>';
    const line = [0, 480, 960].map((tick) => ({ tick, end: tick + 200, pitch: 50, velocity: 100 }));
    writeFileSync(join(folder, 'take.mid'), bytesOf([trackOf(line, [], 'Horns')]));
    const map = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
    writeFileSync(
      join(folder, 'horns.yaml'),
      map.replace('library: Saltmarsh Brass', `library: '${script}'`),
    );
    const layer = `{name: '${script}', map: horns.yaml}`;
    const part = `{name: '${script}', track: Horns, map: horns.yaml, layers: [${layer}]}`;
    const cue = `format: keyslip-cue/1\ntitle: '${script}'\nsource: take.mid\noutput: out.mid\nparts: [${part}]\n`;
    writeFileSync(join(folder, 'hostile.cue.yaml'), cue);
    const page = await opened(sheetOf([join(folder, 'hostile.cue.yaml')], 'hostile-cue.html'));
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false);
    expect(await page.title()).toBe(script);
    expect(await page.locator('h1').textContent()).toBe(script);
    expect(await page.locator('.layered').count()).toBeGreaterThan(0);
    await page.locator('[data-note="n0-0"]').hover();
    expect(await page.locator('#why').textContent()).toContain(`doubled by ${script}`);
    expect(await page.evaluate(() => 'hurt' in window)).toBe(false);
  });
});

it('nothing was asked for but the pages themselves', () => {
  expect(asked.length).toBeGreaterThan(1);
  expect(asked.filter((address) => !address.startsWith(pathToFileURL(folder).href))).toEqual([]);
});
