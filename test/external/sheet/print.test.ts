import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../../support/cli.js';
import { bytesOf, trackOf } from '../../support/song.js';
import { openBrowser, type TestBrowser } from './browser.js';
import { openPage, sheetIn } from './opened.js';

// What is printed, as poppler reads it: a program that knows nothing of browsers.
const folder = scratchFolder();
let browser: TestBrowser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

async function printed(words: readonly string[], name: string): Promise<string> {
  const { page } = await openPage(browser.context, sheetIn(folder, words, `${name}.html`));
  const path = join(folder, `${name}.pdf`);
  await page.pdf({ path, preferCSSPageSize: true });
  return path;
}

function poppler(program: string, words: readonly string[]): Buffer {
  const { status, stdout, stderr } = spawnSync(program, words, { maxBuffer: 1 << 28 });
  expect({ status, err: stderr.toString() }).toEqual({ status: 0, err: '' });
  return stdout;
}

const textOf = (pdf: string, page: number) =>
  poppler('pdftotext', ['-f', `${page}`, '-l', `${page}`, '-layout', pdf, '-']).toString();

/** The shares of a page's width and height between its outermost ink. */
function inked(pdf: string, page: number): { readonly across: number; readonly down: number } {
  const pgm = poppler('pdftoppm', ['-f', `${page}`, '-l', `${page}`, '-r', '36', '-gray', pdf]);
  const [head = '', width = 0, height = 0] =
    /^P5\s(\d+)\s(\d+)\s255\s/u.exec(pgm.toString('latin1', 0, 40)) ?? [];
  const dots = pgm.subarray(head.length);
  const [columns, rows]: [number[], number[]] = [[], []];
  dots.forEach((grey, index) => {
    if (grey > 200) return;
    columns.push(index % Number(width));
    rows.push(Math.floor(index / Number(width)));
  });
  const spread = (places: readonly number[]) =>
    places.reduce((most, one) => Math.max(most, one), 0) -
    places.reduce((least, one) => Math.min(least, one));
  return { across: spread(columns) / Number(width), down: spread(rows) / Number(height) };
}

describe('a printed sheet', () => {
  it('has the heading and music on its first page, and fills it', async () => {
    const pdf = await printed(['maps/demo/skerry-point.cue.yaml'], 'demo');
    const first = textOf(pdf, 1);
    expect(first).toContain('Last Boat to Skerry Point');
    expect(first).toContain('Violins, lower desks');
    expect(first).toContain('Dm7/C');
    expect(first).not.toContain('Signs');
    expect(first).not.toContain('The whole piece');
    // A4 with margins of 12 mm: 0.92 of the width and 0.886 of the height can have ink.
    expect(inked(pdf, 1).across).toBeGreaterThan(0.7);
    expect(inked(pdf, 1).down).toBeGreaterThan(0.8);
    expect(textOf(pdf, 2)).toContain('Horns');
    const size = poppler('pdfinfo', [pdf]).toString();
    // Points (PDF 32000-1, 8.3.2.3) of A4, 297 by 210 mm.
    expect(size).toMatch(/Page size: +84[12][.\d]* x 59[45]/u);
    const pages = Number(/Pages: +(\d+)/u.exec(size)?.[1]);
    expect(pages).toBe(6);
    expect(Array.from({ length: pages }, (_, index) => textOf(pdf, index + 1)).join()).toContain('Signs');
  });

  it('stands upright where that fills the paper better, with several systems on a page', async () => {
    const notes = Array.from({ length: 160 }, (_, index) => ({
      tick: index * 240,
      end: index * 240 + 200,
      pitch: 50 + (index % 5),
    }));
    writeFileSync(join(folder, 'line.mid'), bytesOf([trackOf(notes, [], 'Horns')]));
    const pdf = await printed([join(folder, 'line.mid'), '--map', 'maps/saltmarsh-horns.yaml'], 'line');
    expect(poppler('pdfinfo', [pdf]).toString()).toMatch(/Page size: +59[45][.\d]* x 84[12]/u);
    expect(textOf(pdf, 1).match(/Horns/gu)?.length).toBeGreaterThan(2);
    expect(inked(pdf, 1).across).toBeGreaterThan(0.85);
    expect(inked(pdf, 1).down).toBeGreaterThan(0.7);
  });
});
