import { spawn } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type axe from 'axe-core';
import type { FrameLocator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { program, scratchFolder } from '../../support/cli.js';
import { openBrowser, type TestBrowser } from '../sheet/browser.js';
import { openPage } from '../sheet/opened.js';

const folder = scratchFolder();
cpSync('maps/demo', folder, { recursive: true });
const cue = join(folder, 'skerry-point.cue.yaml');
const map = join(folder, 'libraries/harbour-light-horns.yaml');
const cueText = readFileSync(cue, 'utf8');
const mapText = readFileSync(map, 'utf8');
const checker = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: TestBrowser;
let page: Page;
let troubles: readonly string[];
let sheet: FrameLocator;
let address = '';
const child = spawn(process.execPath, [program, 'desk', cue], { stdio: ['ignore', 'pipe', 'pipe'] });

beforeAll(async () => {
  browser = await openBrowser();
  address = await new Promise<string>((done) =>
    child.stdout.once('data', (data) => done(String(data).trim())),
  );
  ({ page, troubles } = await openPage(browser.context, address));
  page.setDefaultTimeout(20_000);
  sheet = page.frameLocator('iframe');
  await sheet.locator('.system').first().waitFor();
});
afterAll(async () => {
  child.kill('SIGINT');
  await browser.close();
});

const changes = () => page.locator('#changes li');
const short = () => page.getByLabel('short: held below', { exact: true }).first();
const slider = () => page.getByLabel('short: held below (rule 3)', { exact: true }).first();
const effect = () => page.locator('#moved .effect');

/** A save is seen within a second; on a machine with much else to do, later. */
const soon = <T>(look: () => T) => expect.poll(look, { timeout: 20_000 });

/** How far the sheet is scrolled, and where the first system in sight stands in the window. */
const scrolled = () =>
  page.evaluate(() => {
    const { contentWindow, contentDocument } = document.querySelector('iframe') ?? {};
    const systems = [...(contentDocument?.querySelectorAll('.system') ?? [])];
    const first = systems.find((one) => one.getBoundingClientRect().bottom > 0);
    return { y: contentWindow?.scrollY ?? 0, id: first?.id, top: first?.getBoundingClientRect().top ?? 0 };
  });

/** The same once nothing moves: the panel that tells of a note grows, and the sheet moves its note out from under it. */
async function atRest() {
  let place = await scrolled();
  for (let still = 0; still < 5; ) {
    await page.waitForTimeout(100);
    const now = await scrolled();
    still = now.y === place.y ? still + 1 : 0;
    place = now;
  }
  return place;
}

/** What axe-core (Deque's rules for WCAG 2.2) finds, in the page and the sheet in it. */
async function violations(): Promise<readonly string[]> {
  for (const frame of page.frames()) await frame.evaluate(checker);
  const { violations: found } = await page.evaluate(
    () => (window as unknown as { axe: typeof axe }).axe.run(document) as Promise<axe.AxeResults>,
  );
  return found.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

describe('the desk in a browser', () => {
  it('shows the sheet, with bounds and levels beside it', async () => {
    expect(await page.title()).toBe('Last Boat to Skerry Point, on the desk');
    expect(await page.locator('#state').textContent()).toMatch(/^As the files are since /u);
    expect(await short().inputValue()).toBe('260');
    expect(await page.getByLabel('Trumpets: level', { exact: true }).inputValue()).toBe('-6');
    expect(await page.locator('#changes').isVisible()).toBe(false);
  });

  it('a saved map changes the sheet, which keeps its place and the chosen note', async () => {
    await sheet.locator('[data-note="n1-0"]').focus();
    await page.keyboard.press('ArrowRight');
    const note = await sheet.locator('#why strong').textContent();
    await page.evaluate(() =>
      document.querySelector('iframe')?.contentWindow?.scrollTo({ top: 700, behavior: 'instant' }),
    );
    const before = await atRest();
    expect(before.y).toBeGreaterThan(600);
    writeFileSync(map, mapText.replace('below: 260ms', 'below: 900ms'));
    await changes().first().waitFor();
    await soon(async () => sheet.locator('.otherwise.become').count()).toBeGreaterThan(0);
    expect(await changes().first().textContent()).toMatch(/^Horns: \w+ → short: \d+ notes?, bars? \d/u);
    await soon(async () => Math.abs((await scrolled()).top - before.top)).toBeLessThan(2);
    expect((await scrolled()).id).toBe(before.id);
    expect(await sheet.locator('#why').isVisible()).toBe(true);
    expect(await sheet.locator('#why strong').textContent()).toBe(note);
    expect(await page.locator('iframe').count()).toBe(1);
    expect(await short().inputValue()).toBe('900');
  });

  it('marks the notes that the list tells of, and leads to their bars', async () => {
    const counts = (await changes().allTextContents()).map((text) =>
      Number(/: (\d+) note/u.exec(text)?.[1] ?? 0),
    );
    const told = counts.reduce((sum, count) => sum + count, 0);
    expect(told).toBeGreaterThan(0);
    expect(await sheet.locator('.otherwise.become').count()).toBe(told);
    const link = changes().first().locator('a').last();
    const bar = /\d+/u.exec((await link.getAttribute('aria-label')) ?? '')?.[0];
    await link.focus();
    await page.keyboard.press('Enter');
    await soon(() =>
      page
        .frames()
        .find((frame) => frame.url().includes('/sheet/'))
        ?.url(),
    ).toMatch(new RegExp(`#bar-${bar}$`, 'u'));
    await soon(() => sheet.locator(`#bar-${bar}`).evaluate((one) => one.matches(':target'))).toBe(true);
  });

  it('shows at once what a slider would change, and writes nothing', async () => {
    await slider().focus();
    await slider().fill('200');
    await soon(() => effect().textContent()).toMatch(/^\d+ of \d+ notes get another articulation\.$/u);
    expect(await short().inputValue()).toBe('200');
    expect(await slider().getAttribute('aria-valuetext')).toBe('200 ms');
    expect(await page.locator('.moves li').textContent()).toContain('short: held below 900ms → 200ms');
    expect(await sheet.locator('.otherwise.perhaps').count()).toBeGreaterThan(0);
    // By keys too.
    const some = await page.locator('.effects').textContent();
    await page.keyboard.press('End');
    await soon(() => page.locator('.effects').textContent()).not.toBe(some);
    expect(readFileSync(map, 'utf8')).toContain('below: 900ms');
  });

  it('puts it back', async () => {
    await page.getByRole('button', { name: 'Put back short: held below' }).click();
    await soon(() => effect().textContent()).toBe('Nothing is moved.');
    expect(await short().inputValue()).toBe('900');
    expect(await sheet.locator('.otherwise.perhaps').count()).toBe(0);
    expect(await page.locator('#write').isDisabled()).toBe(true);
    // The keyboard is where the value is, and not lost with the button.
    expect(await short().evaluate((one) => one === document.activeElement)).toBe(true);
  });

  it('keeps what is moved while another file is saved', async () => {
    await short().fill('260');
    const level = page.getByLabel('Horns: level', { exact: true });
    await level.fill('-9');
    writeFileSync(cue, cueText.replace('level: -6', 'level: -7'));
    await soon(() => page.getByLabel('Trumpets: level', { exact: true }).inputValue()).toBe('-7');
    expect(await short().inputValue()).toBe('260');
    expect(await level.inputValue()).toBe('-9');
    expect(await page.locator('.moves li').count()).toBe(2);
  });

  it('writes into the files when it is asked to, comments kept', async () => {
    await page.locator('#write').click();
    await soon(() => effect().textContent()).toMatch(/^Written: .*harbour-light-horns\.yaml/u);
    expect(readFileSync(map, 'utf8')).toBe(mapText);
    expect(readFileSync(cue, 'utf8')).toBe(
      cueText.replace('level: -6', 'level: -7').replace('level: -4', 'level: -9'),
    );
    await soon(async () => (await changes().allTextContents()).join()).toMatch(/short → /u);
    expect(await page.locator('.moves li').count()).toBe(0);
  });

  it('shows what is wrong in a broken file as text, and keeps the last sheet', async () => {
    writeFileSync(map, `<img src=x onerror="document.title='taken'">: [\n`);
    await page.locator('#problems li').first().waitFor();
    expect(await page.locator('#state').textContent()).toContain('What is shown is the last that had none.');
    expect(await page.locator('#problems li').first().textContent()).toContain('harbour-light-horns.yaml:');
    expect(await page.locator('#problems img').count()).toBe(0);
    expect(await sheet.locator('.system').count()).toBeGreaterThan(1);
    writeFileSync(map, mapText);
    await soon(() => page.locator('#problems').isVisible()).toBe(false);
  });

  it('ends in the right state while a file is saved twenty times a second', async () => {
    for (let save = 0; save < 30; save++) {
      writeFileSync(
        map,
        save % 2 === 0 ? mapText.slice(0, 30 * save) : mapText.replace('260ms', `${400 + save}ms`),
      );
      await page.waitForTimeout(50);
    }
    writeFileSync(map, mapText.replace('260ms', '555ms'));
    await soon(() => short().inputValue()).toBe('555');
    await soon(() => page.locator('#problems').isVisible()).toBe(false);
    await soon(() => page.locator('iframe').count()).toBe(1);
  });

  for (const [size, { width, height }] of Object.entries({
    wide: { width: 1360, height: 900 },
    narrow: { width: 390, height: 844 },
  }))
    for (const colorScheme of ['light', 'dark'] as const)
      it(`has nothing that axe-core finds: ${size}, ${colorScheme}`, async () => {
        await page.setViewportSize({ width, height });
        await page.emulateMedia({ colorScheme });
        await short().fill(colorScheme === 'dark' ? '200' : '210');
        await page.locator('.effects li').first().waitFor();
        expect(await violations()).toEqual([]);
      });

  it('says nothing to the console', () => {
    expect(troubles).toEqual([]);
  });
});
