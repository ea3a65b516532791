import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import tonejs from '@tonejs/midi';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wavSink } from '../../../src/sound/hear/index.js';
import { keyslip, scratchFolder } from '../../support/cli.js';
import { openBrowser, type TestBrowser } from './browser.js';
import { openPage, sheetIn } from './opened.js';

const folder = scratchFolder();
const take = 'maps/demo/last-boat.mid';
/** All of its articulations speak at once. */
const map = 'maps/general-midi-brass.yaml';
const rate = 48_000;

/** When each note of the take is struck, by another reader of MIDI files. Unit: s. */
const struck = new tonejs.Midi(readFileSync(take)).tracks
  .flatMap(({ notes }) => notes.map(({ time }) => time))
  .sort((a, b) => a - b);
const seconds = (struck.at(-1) ?? 0) + 4;

/** Every address that a page asked for. */
const asked: string[] = [];
let browser: TestBrowser;
let address: string;

/** A sound of short beeps, one at each note that is struck. */
async function beeps(file: string): Promise<void> {
  const left = new Float32Array(Math.round(seconds * rate));
  for (const time of struck)
    for (let frame = 0; frame < 240; frame++)
      left[Math.round(time * rate) + frame] = 0.4 * Math.sin((2 * Math.PI * 3000 * frame) / rate);
  const pieces: Uint8Array[] = [];
  const sink = wavSink((bytes) => {
    pieces.push(bytes);
  });
  await sink.begin({ sampleRate: rate, format: '16', frames: left.length });
  await sink.write({ left, right: left });
  writeFileSync(file, Buffer.concat(pieces));
}

beforeAll(async () => {
  browser = await openBrowser();
  browser.context.on('request', (request) => asked.push(request.url()));
  const sound = join(folder, 'beeps.wav');
  await beeps(sound);
  address = sheetIn(folder, [take, '--map', map, '--sound', sound], 'heard.html');
});
afterAll(() => browser.close());

async function opened(at = address): Promise<{ page: Page; troubles: readonly string[] }> {
  const one = await openPage(browser.context, at);
  await one.page.locator('.heard-strip').waitFor();
  return one;
}

/** Where the line stands, by which system and how far into it; undefined where there is none. */
async function lineOf(page: Page) {
  return page.evaluate(() => {
    const line = document.querySelector('.heard-line');
    const systems = [...document.querySelectorAll('.system > svg')];
    const x = Number(/^M([\d.]+)/u.exec(line?.getAttribute('d') ?? '')?.[1]);
    return line ? { system: systems.indexOf(line.parentElement as Element), x } : undefined;
  });
}

/** Where a note is drawn. */
async function headOf(page: Page, note: string) {
  return page.locator(`circle[data-note="${note}"]`).evaluate((head) => ({
    system: [...document.querySelectorAll('.system > svg')].indexOf(
      (head as SVGElement).ownerSVGElement as Element,
    ),
    x: Number(head.getAttribute('cx')),
  }));
}

/** Reaches a note of the part by keys. */
async function reach(page: Page, note: number): Promise<void> {
  await page.locator('[data-note="n0-0"]').focus();
  for (let step = 0; step < note; step++) await page.keyboard.press('ArrowRight');
}

const place = (page: Page) => page.locator('.heard-place').textContent();

describe('a sheet that can be heard', () => {
  it('has its sound and its notes at one time, to the millisecond, as chromium unfolds it', async () => {
    const { page } = await opened();
    const { lengthMs, onsets, notes } = await page.evaluate(async () => {
      const told = JSON.parse(document.querySelector('#heard')?.textContent ?? '{}');
      const base64 = document.querySelector('#sound')?.textContent ?? '';
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const context = new OfflineAudioContext(1, 1, 48_000);
      const sound = await context.decodeAudioData(bytes.buffer);
      const samples = sound.getChannelData(0);
      const notes = told.notes[0].map(([ms]: [number]) => ms) as number[];
      // the first frame that is as loud as half of the beep
      const onsets = notes.map((ms) => {
        let frame = Math.max(0, Math.round((ms - 15) * 48));
        while (frame < samples.length && Math.abs(samples[frame] ?? 0) < 0.2) frame++;
        return frame / 48;
      });
      return { lengthMs: sound.duration * 1000, onsets, notes };
    });
    expect(notes).toHaveLength(struck.length);
    [...notes]
      .sort((a, b) => a - b)
      .forEach((ms, index) => {
        expect(Math.abs(ms - 1000 * (struck[index] ?? 0)), `note ${index}`).toBeLessThan(0.1);
      });
    const isAlone = (ms: number) => notes.filter((other) => Math.abs(other - ms) < 30).length === 1;
    const alone = onsets.flatMap((ms, index) => (isAlone(notes[index] ?? 0) ? [[index, ms] as const] : []));
    expect(alone.length).toBeGreaterThan(10);
    alone.forEach(([index, ms]) => {
      expect(Math.abs(ms - (notes[index] ?? 0)), `note ${index}`).toBeLessThan(1);
    });
    expect(Math.abs(lengthMs - 1000 * seconds)).toBeLessThan(1);
    await page.close();
  });

  it('is heard from the note that is told of, with the line on it and going over systems', async () => {
    const { page, troubles } = await opened();
    await reach(page, 7);
    const head = await headOf(page, 'n0-7');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Hush' }).waitFor();
    await page.locator('.heard-line').waitFor({ state: 'attached' });
    const first = await lineOf(page);
    expect(first?.system).toBe(head.system);
    // it is looked at a little later
    expect((first?.x ?? 0) - head.x).toBeGreaterThan(-300);
    expect((first?.x ?? 0) - head.x).toBeLessThan(3000);
    expect(await place(page)).toMatch(/^bar \d+, beat [1-4], 0:\d\d$/u);
    const last = page.locator('.system').last();
    await page.locator('[data-note]').last().dblclick();
    await page.waitForFunction(() => {
      const systems = document.querySelectorAll('.system > svg');
      return systems[systems.length - 1]?.querySelector('.heard-line');
    });
    expect(await last.locator('.heard-line').count()).toBe(1);
    // it comes to its end by itself
    await page.getByRole('button', { name: 'Hear it' }).waitFor({ timeout: 10_000 });
    expect(await lineOf(page)).toBeUndefined();
    expect(troubles).toEqual([]);
    await page.close();
  });

  it('rests where it is hushed, and goes on from there', async () => {
    const { page } = await opened();
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Hush' }).waitFor();
    await page.waitForTimeout(1200);
    await page.keyboard.press('h');
    const hushed = await place(page);
    expect(hushed).toMatch(/0:01$/u);
    await page.waitForTimeout(400);
    expect(await place(page)).toBe(hushed);
    await page.keyboard.press('h');
    await page.waitForTimeout(1100);
    expect(await place(page)).toMatch(/0:0[23]$/u);
    await page.close();
  });

  it('hears marked bars again and again, and goes on when they are unmarked', async () => {
    const { page } = await opened();
    await reach(page, 4);
    const label = await page.locator('[data-note="n0-4"]').getAttribute('aria-label');
    const bar = Number(/bar (\d+)/u.exec(label ?? '')?.[1]);
    await page.keyboard.press('b');
    expect(await page.locator('.heard-again').getAttribute('id')).toBe(`bar-${bar}`);
    expect(await place(page)).toContain(`bar ${bar} again and again`);
    await page.keyboard.press('h');
    await page.getByRole('button', { name: 'Hush' }).waitFor();
    const seen: number[] = [];
    for (let turn = 0; turn < 14; turn++) {
      await page.waitForTimeout(230);
      seen.push((await lineOf(page))?.x ?? 0);
      expect(await place(page)).toMatch(new RegExp(`^bar ${bar}, `, 'u'));
    }
    expect(seen.some((x, index) => x < (seen[index - 1] ?? 0))).toBe(true);
    await page.getByRole('button', { name: 'Go on past the marks' }).click();
    await page.waitForFunction(
      (text) => document.querySelector('.heard-place')?.textContent?.startsWith(text),
      `bar ${bar + 1}, `,
    );
    expect(await page.locator('.heard-again').count()).toBe(0);
    await page.close();
  });

  it('begins softly, and is made louder and softer by keys, which can be turned off', async () => {
    const { page } = await opened();
    const slider = page.getByRole('slider', { name: 'how loud' });
    expect(await slider.inputValue()).toBe('25');
    await page.keyboard.press('.');
    expect(await slider.inputValue()).toBe('30');
    for (let turn = 0; turn < 9; turn++) await page.keyboard.press(',');
    expect(await slider.inputValue()).toBe('0');
    expect(await page.locator('.heard-strip').textContent()).toContain('headphones');
    // WCAG 2.2, 2.1.4: single keys can be turned off
    await page.getByText('Keys', { exact: true }).click();
    await page.getByLabel('single keys are commands').uncheck();
    await page.keyboard.press('.');
    expect(await slider.inputValue()).toBe('0');
    await page.close();
  });

  it('asks for a note where none is told of', async () => {
    const { page } = await opened();
    await page.getByRole('button', { name: 'From this note' }).click();
    expect(await place(page)).toMatch(/point at a note/u);
    await page.close();
  });

  it('leaves the keys of the page as they are', async () => {
    const { page } = await opened();
    await reach(page, 2);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-note'))).toBe('n0-2');
    await page.keyboard.press('Home');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-note'))).toBe('n0-0');
    await page.keyboard.press('Escape');
    expect(await page.locator('#why').isVisible()).toBe(false);
    await page.close();
  });

  for (const [name, size] of Object.entries({
    desk: { width: 1360, height: 900 },
    phone: { width: 390, height: 844 },
  }))
    it(`has nothing that axe-core finds, and its focus is seen: ${name}`, async () => {
      const checker = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
      const { page } = await opened();
      await page.setViewportSize(size);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        await page.reload();
        await reach(page, 1);
        await page.keyboard.press('b');
        await page.getByText('Keys', { exact: true }).click();
        await page.evaluate(checker);
        const { violations } = await page.evaluate(
          () => (window as unknown as { axe: typeof axe }).axe.run(document) as Promise<axe.AxeResults>,
        );
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      }
      await page.getByRole('button', { name: 'From this note' }).focus();
      await page.keyboard.press('Tab');
      const style = await page.evaluate(
        () => getComputedStyle(document.activeElement as Element).outlineStyle,
      );
      expect(style).toBe('solid');
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
      await page.close();
    });

  it('says in a sentence that a browser cannot read its sound', async () => {
    const broken = join(folder, 'broken.html');
    const html = readFileSync(join(folder, 'heard.html'), 'utf8');
    writeFileSync(broken, html.replace(/(id="sound">)[^<]*/u, '$1bm8gc291bmQ='));
    const { page } = await opened(pathToFileURL(broken).href);
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByText('This browser cannot read the sound of this page.').waitFor();
    expect(await page.getByRole('button', { name: 'Hear it' }).isDisabled()).toBe(true);
    await page.close();
  });

  it('of some bars has their notes, bars and sound, from their first beat', async () => {
    const words = [take, '--map', map, '--at', '3..4', '--sound', join(folder, 'beeps.wav')];
    const { page } = await opened(sheetIn(folder, words, 'some.html'));
    const told = await page.evaluate(() => JSON.parse(document.querySelector('#heard')?.textContent ?? '{}'));
    expect(told.bars.map(({ bar }: { bar: number }) => bar)).toEqual([3, 4]);
    expect(told.bars[0].beats[0]).toBeCloseTo(0, 0);
    expect(told.lengthMs).toBeCloseTo(told.bars[1].toMs, 0);
    await reach(page, 1);
    expect(await page.locator('#why').textContent()).toContain(
      await page
        .locator('[data-note="n0-1"]')
        .getAttribute('aria-label')
        .then((label) => label?.split(': ')[0]),
    );
    await page.close();
  });

  it('asked for nothing but its own pages', () => {
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.every((one) => one.startsWith(pathToFileURL(folder).href))).toBe(true);
  });
});

describe('a cue that is rendered for its sheet', () => {
  it('is heard with a real bank', async () => {
    const path = join(folder, 'cue.html');
    const words = ['maps/demo/skerry-point.cue.yaml', '-o', path, '--sound', '--bank'];
    const { status, err } = keyslip(['sheet', ...words, '/usr/share/sounds/sf2/TimGM6mb.sf2']);
    expect(status).toBe(0);
    expect(err).toMatch(/0:\d\d, 0\.\d\d MB compressed, 0\.\d\d MB of the page/u);
    const { page, troubles } = await opened(pathToFileURL(path).href);
    await reach(page, 1);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('.heard-line'));
    await page.waitForTimeout(600);
    expect(await place(page)).toMatch(/^bar 2, beat [23], 0:0[345]$/u);
    expect(troubles).toEqual([]);
    await page.close();
  });
});
