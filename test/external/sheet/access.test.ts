import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../../support/cli.js';
import { bytesOf, trackOf } from '../../support/song.js';
import { openBrowser, type TestBrowser } from './browser.js';
import { openPage, sheetIn } from './opened.js';

const folder = scratchFolder();
const checker = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const sizes = { desk: { width: 1360, height: 900 }, phone: { width: 390, height: 844 } } as const;

let browser: TestBrowser;
let page: Page;
beforeAll(async () => {
  browser = await openBrowser();
  ({ page } = await openPage(
    browser.context,
    sheetIn(folder, ['maps/demo/skerry-point.cue.yaml'], 'demo.html'),
  ));
});
afterAll(() => browser.close());

/** What axe-core (Deque's rules for WCAG 2.2) finds. It is run past the page's policy, which lets no other script in. */
async function violations(): Promise<readonly string[]> {
  await page.evaluate(checker);
  const { violations } = await page.evaluate(
    () => (window as unknown as { axe: typeof axe }).axe.run(document) as Promise<axe.AxeResults>,
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

/** Goes on by a key so many times, and from notes by the keys that lead from note to note; what was hidden then. */
async function walk(key: string, times: number): Promise<readonly string[]> {
  const hidden: string[] = [];
  const press = async (one: string) => {
    await page.keyboard.press(one);
    hidden.push(...(await page.evaluate(covered)));
  };
  for (let count = 0; count < times; count++) {
    await press(key);
    if (await page.evaluate(() => document.activeElement?.hasAttribute('data-note')))
      for (const arrow of ['ArrowRight', 'ArrowDown', 'End', 'ArrowUp', 'Home']) await press(arrow);
  }
  return hidden;
}

describe('a sheet for everyone', () => {
  for (const [name, size] of Object.entries(sizes))
    for (const colorScheme of ['light', 'dark'] as const)
      it(`has nothing that axe-core finds: ${name}, ${colorScheme}`, async () => {
        await page.setViewportSize(size);
        await page.emulateMedia({ colorScheme });
        await page.reload();
        expect(await violations()).toEqual([]);
        await page.locator('[data-note="n1-0"]').focus();
        expect(await page.locator('#why').isVisible()).toBe(true);
        expect(await violations()).toEqual([]);
      });

  it('has a name for every note, also of those that nobody pointed at', async () => {
    await page.reload();
    const names = await page
      .locator('.head')
      .evaluateAll((heads) => heads.map((head) => head.getAttribute('aria-label') ?? ''));
    expect(names.length).toBeGreaterThan(100);
    expect(names.filter((name) => !/^.+, bar \d+, beat .+: [A-G][#b]?-?\d, [a-z-]+$/u.test(name))).toEqual(
      [],
    );
    expect(names[0]).toBe('Horns, bar 2, beat 1: D2, legato');
  });

  for (const [name, size] of Object.entries(sizes))
    it(`shows what has the focus, never under the panel (WCAG 2.2, 2.4.11): ${name}`, async () => {
      await page.setViewportSize(size);
      // Else the page is still on its way when it is looked at.
      await page.emulateMedia({ reducedMotion: 'reduce' });
      await page.reload();
      await page.locator('[data-note="n1-0"]').focus();
      await page.locator('.legend summary').focus();
      await page.evaluate(() => window.scrollTo(0, 0));
      const hidden = [
        ...(await walk('Tab', 18)),
        ...(await walk('Shift+Tab', 14)),
        ...(await walk('Tab', 6)),
      ];
      expect(hidden).toEqual([]);
      expect(await page.locator('#why').isVisible()).toBe(true);
    });

  it('lets keys move systems and tables sideways where they are wider than the window', async () => {
    await page.setViewportSize(sizes.phone);
    await page.reload();
    for (const selector of ['.system', '.wide']) {
      const box = page.locator(selector).first();
      await box.focus();
      const moved = () => box.evaluate((one) => one.scrollLeft);
      const room = await box.evaluate((one) => one.scrollWidth - one.clientWidth);
      expect(room, selector).toBeGreaterThan(0);
      await page.keyboard.press('ArrowRight');
      await expect.poll(moved).toBeGreaterThan(0);
    }
  });

  it('leads by keyboard from the overview to a system', async () => {
    await page.setViewportSize(sizes.desk);
    await page.reload();
    const link = page.locator('.glance a').nth(2);
    await link.focus();
    const name = (await link.getAttribute('aria-label')) ?? '';
    expect(name).toMatch(/^bars? \d+.*: .*Horns/u);
    await page.keyboard.press('Enter');
    const target = page.locator('.system').nth(2);
    await expect.poll(async () => Math.abs((await target.boundingBox())?.y ?? 900)).toBeLessThan(120);
    const from = /\d+/u.exec(name)?.[0];
    expect(await target.getAttribute('aria-label')).toMatch(new RegExp(`^Bars? ${from}\\b`, 'u'));
  });

  it('shows names of parts whole', async () => {
    await page.setViewportSize(sizes.desk);
    await page.reload();
    const cut = await page.evaluate(() =>
      [...document.querySelectorAll('.page-margin .label, .page-margin .labelAbbr')].flatMap((label) => {
        const { left } = label.getBoundingClientRect();
        const frame = label.closest('.system')?.getBoundingClientRect().left ?? 0;
        return left < frame ? [label.textContent] : [];
      }),
    );
    expect(cut).toEqual([]);
  });
});

it('a sheet of hostile names says nothing to the console, and does not tell where its files lie', async () => {
  const name = '<b title=x>&amp;\u0007\u001b[31m\u202e"\' \u{e0041}</svg>]]>';
  const notes = [0, 480, 960].map((tick) => ({ tick, end: tick + 200, pitch: 50 }));
  const take = join(folder, 'take.mid');
  writeFileSync(take, bytesOf([trackOf(notes, [], Buffer.from(name).toString('latin1'))]));
  const address = sheetIn(folder, [take, '--map', resolve('maps/saltmarsh-horns.yaml')], 'take.html');
  const { page: hostile, troubles } = await openPage(browser.context, address);
  await hostile.locator('[data-note="n0-0"]').focus();
  await hostile.keyboard.press('ArrowRight');
  expect(await hostile.locator('[data-note="n0-1"]').getAttribute('aria-label')).toContain(
    '<b title=x>&amp;',
  );
  const shown = await hostile.locator('#why').textContent();
  expect(shown).toContain('<b title=x>&amp;\\u{7}\\u{1b}[31m\\u{202e}');
  expect(shown).toContain('saltmarsh-horns.yaml:');
  expect(await hostile.locator('b').count()).toBe(0);
  expect(troubles).toEqual([]);
  const content = await hostile.content();
  expect(content).not.toContain(folder);
  expect(content).not.toContain(process.cwd());
  expect(content).not.toMatch(/\p{Cf}/u);
});

/** In the page: what has the focus, if less than half of what of it could be seen is seen. */
function covered(): readonly string[] {
  const focused = document.activeElement;
  const panel = document.querySelector('#why');
  if (!focused || !panel) return ['nothing'];
  const { top, bottom, left, right } = focused.getBoundingClientRect();
  const foot = panel.hasAttribute('hidden') ? innerHeight : panel.getBoundingClientRect().top;
  const seen = Math.min(bottom, foot) - Math.max(top, 0);
  const across = Math.min(right, innerWidth) - Math.max(left, 0);
  const isSeen = seen >= Math.min(bottom - top, foot) / 2 && across > 0;
  const name = focused.getAttribute('data-note') ?? focused.getAttribute('aria-label') ?? focused.textContent;
  return isSeen ? [] : [`${name}: ${Math.round(top)} to ${Math.round(bottom)} of ${Math.round(foot)}`];
}
