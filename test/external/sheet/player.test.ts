import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PlayerData, playerMarkup } from '../../../../src/sound/hear/player/index.js';
import { openBrowser, type TestBrowser } from '../../sheet/browser.js';

const folder = mkdtempSync(join(tmpdir(), 'keyslip-player-'));
/** Every address that the page asked for. */
const asked: string[] = [];
let browser: TestBrowser;

/** Two systems of two bars of a second each, with a head at each beat of 500 ms. */
const data: PlayerData = {
  bars: [1, 2, 3, 4].map((bar, index) => ({ bar, fromMs: index * 1000, toMs: (index + 1) * 1000 })),
  notes: [[0, 1, 2, 3, 4, 5, 6, 7].map((beat) => [beat * 500, beat >> 1])],
};

beforeAll(async () => {
  browser = await openBrowser();
  browser.context.on('request', (request) => asked.push(request.url()));
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

function system(number: number): string {
  const heads = [0, 1, 2, 3].map((beat) => {
    const note = number * 4 + beat;
    return `<circle data-note="n0-${note}" tabindex="0" cx="${1000 + beat * 2000}" cy="500" r="230"/>`;
  });
  const bars = [0, 1].map(
    (bar) =>
      `<rect id="bar-${number * 2 + bar + 1}" fill="none" x="${bar * 4000}" y="0" width="4000" height="1000"/>`,
  );
  return `<svg viewBox="0 0 9000 1000">${bars.join('')}${heads.join('')}</svg>`;
}

/** A page with a sound in it, four seconds of a tone, compressed by ffmpeg. */
async function pageWith(sound: Buffer, name: string): Promise<Page> {
  const client = 'src/sound/hear/player/client';
  const bundle = async (file: string) => {
    const options = {
      bundle: true,
      write: false,
      format: 'iife',
      target: 'es2022',
      logLevel: 'warning',
    } as const;
    const { outputFiles } = await build({ ...options, entryPoints: [`${client}/${file}`] });
    return outputFiles[0]?.text ?? '';
  };
  const file = join(folder, `${name}.html`);
  writeFileSync(
    file,
    `<!doctype html><meta charset="utf-8"><title>test</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'">
<style>${await bundle('style.css')}</style><main>${system(0)}${system(1)}</main>
${playerMarkup(data, sound)}<script>${await bundle('page.ts')}</script>`,
  );
  const page = await browser.context.newPage();
  await page.goto(pathToFileURL(file).href);
  await page.locator('.heard-strip').waitFor();
  return page;
}

function compressed(codec: readonly string[], ending: string): Buffer {
  const file = join(folder, `sound.${ending}`);
  const tone = 'sine=frequency=440:sample_rate=48000:duration=4';
  execFileSync('ffmpeg', ['-v', 'error', '-y', '-f', 'lavfi', '-i', tone, ...codec, file]);
  return readFileSync(file);
}

const mp3 = () => compressed(['-c:a', 'libmp3lame', '-b:a', '96k'], 'mp3');

/** Where the line stands, by which system and how far into it. */
async function lineOf(page: Page): Promise<{ system: number; x: number; ms: number } | undefined> {
  return page.evaluate(() => {
    const line = document.querySelector('.heard-line');
    const systems = [...document.querySelectorAll('svg')];
    const x = Number(/^M([\d.]+)/u.exec(line?.getAttribute('d') ?? '')?.[1]);
    return line
      ? { system: systems.indexOf(line.closest('svg') as SVGSVGElement), x, ms: performance.now() }
      : undefined;
  });
}

describe('the player', () => {
  it.each([
    ['MP3', mp3],
    ['Ogg Opus', () => compressed(['-c:a', 'libopus', '-b:a', '64k'], 'opus')],
    ['Ogg Vorbis', () => compressed(['-c:a', 'libvorbis', '-q:a', '2'], 'ogg')],
  ] as const)(
    'hears %s that the page has in it, with the line going along, and asks for nothing',
    async (name, sound) => {
      const page = await pageWith(sound(), name.replace(' ', '-'));
      const errors: string[] = [];
      page.on('pageerror', (error) => errors.push(error.message));
      const strip = page.locator('.heard-strip');
      expect(await strip.textContent()).toMatch(/Hear it[\s\S]*bar 1, 0:00[\s\S]*4 s, 0\.\d MB/u);
      await page.getByRole('button', { name: 'Hear it' }).click();
      await page.waitForTimeout(700);
      const first = await lineOf(page);
      await page.waitForTimeout(600);
      const second = await lineOf(page);
      expect(first?.system).toBe(0);
      expect(second?.x ?? 0).toBeGreaterThan(first?.x ?? 0);
      // 4 units a ms from the head of 0 ms at 1000
      const passed = (second?.ms ?? 0) - (first?.ms ?? 0);
      expect(Math.abs((second?.x ?? 0) - (first?.x ?? 0) - passed * 4)).toBeLessThan(150 * 4);
      await page.getByRole('button', { name: 'Hush' }).click();
      const hushed = await strip.textContent();
      expect(hushed).toMatch(/bar 2, 0:01/u);
      await page.waitForTimeout(300);
      expect(await strip.textContent()).toBe(hushed);
      expect(errors).toEqual([]);
      await page.close();
    },
  );

  it('hears from the note that has the keyboard, and comes to its end', async () => {
    const page = await pageWith(mp3(), 'from-note');
    await page.locator('[data-note="n0-6"]').focus();
    await page.keyboard.press('Enter');
    await page.waitForTimeout(400);
    const line = await lineOf(page);
    expect(line?.system).toBe(1);
    expect(line?.x).toBeGreaterThan(5000);
    await page.getByRole('button', { name: 'Hear it' }).waitFor({ timeout: 3000 });
    expect(await lineOf(page)).toBeUndefined();
    await page.keyboard.press('h');
    await page.getByRole('button', { name: 'Hush' }).waitFor();
    await page.close();
  });

  it('hears marked bars again and again, and goes on when they are unmarked', async () => {
    const page = await pageWith(mp3(), 'marks');
    await page.locator('[data-note="n0-2"]').focus();
    await page.keyboard.press('b');
    expect(await page.locator('.heard-strip').textContent()).toMatch(/bar 2 again and again/u);
    expect(await page.locator('.heard-again').getAttribute('id')).toBe('bar-2');
    await page.keyboard.press('h');
    const seen: number[] = [];
    for (let turn = 0; turn < 12; turn += 1) {
      await page.waitForTimeout(230);
      const line = await lineOf(page);
      expect(line?.system).toBe(0);
      seen.push(line?.x ?? 0);
    }
    expect(seen.some((x, index) => x < (seen[index - 1] ?? 0))).toBe(true);
    expect(Math.min(...seen)).toBeGreaterThan(4900);
    await page.getByRole('button', { name: 'Go on past the marks' }).click();
    await page.waitForFunction(() => document.querySelectorAll('svg')[1]?.querySelector('.heard-line'));
    await page.close();
  });

  it('begins softly, and is made louder and softer by keys', async () => {
    const page = await pageWith(mp3(), 'loudness');
    const slider = page.getByRole('slider', { name: 'how loud' });
    expect(await slider.inputValue()).toBe('50');
    await page.keyboard.press('.');
    expect(await slider.inputValue()).toBe('55');
    for (let turn = 0; turn < 15; turn += 1) await page.keyboard.press(',');
    expect(await slider.inputValue()).toBe('0');
    await page.close();
  });

  it('says in a sentence that a sound cannot be read', async () => {
    const page = await pageWith(Buffer.from('no sound at all'), 'broken');
    expect(await page.locator('.heard-strip').textContent()).toMatch(/cannot read the sound of this page/u);
    expect(await page.getByRole('button', { name: 'Hear it' }).isDisabled()).toBe(true);
    await page.close();
  });

  it('asked for nothing but its own page', () => {
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.every((address) => address.startsWith(pathToFileURL(folder).href))).toBe(true);
  });
});
