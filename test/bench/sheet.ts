import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { executablePath, openBrowser } from '../external/sheet/browser.js';
import type { Row, Table } from './table.js';

/** The sheet that the commands left (20,000 notes in 16 parts), in a browser; nothing where there is none. */
export async function printPages(file: string, add: (table: Table) => void): Promise<void> {
  if (!existsSync(executablePath) || !existsSync(file)) return;
  add({
    title: 'The sheet of 20,000 notes in 16 parts, in a browser',
    says: 'What chromium measures while it opens the page and scrolls through it, half a window each frame.',
    head: ['what', 'found'],
    rows: await traceOf(file),
  });
}

/** What the browser itself measures while it opens the page and scrolls through it. */
async function traceOf(file: string): Promise<readonly Row[]> {
  const { context, close } = await openBrowser();
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable');
  const metrics = async () => {
    const { metrics: found } = await session.send('Performance.getMetrics');
    return new Map(found.map(({ name, value }) => [name, value]));
  };
  const began = performance.now();
  await page.goto(pathToFileURL(file).href, { waitUntil: 'load' });
  const loaded = performance.now() - began;
  const opened = await metrics();
  const scrolled = await page.evaluate(scrollThrough);
  const after = await metrics();
  await close();
  const inMs = (of: ReadonlyMap<string, number>, name: string) => ((of.get(name) ?? 0) * 1000).toFixed(0);
  const layout = inMs(after, 'LayoutDuration');
  return [
    ['opened', `${loaded.toFixed(0)} ms`],
    [
      'of these script, style, layout',
      ['ScriptDuration', 'RecalcStyleDuration', 'LayoutDuration']
        .map((name) => `${inMs(opened, name)} ms`)
        .join(', '),
    ],
    ['nodes', String(opened.get('Nodes'))],
    ['script heap', `${((opened.get('JSHeapUsedSize') ?? 0) / 1e6).toFixed(0)} MB`],
    ['frames', String(scrolled.frames)],
    [
      'median, 95 %, longest frame',
      [scrolled.median, scrolled.most, scrolled.longest].map((ms) => `${ms.toFixed(0)} ms`).join(', '),
    ],
    ['tasks over 50 ms', String(scrolled.longTasks)],
    ['layout in all', `${layout} ms`],
  ];
}

/** Runs in the page: scrolls by half a window each frame, and measures the frames. */
async function scrollThrough() {
  let longTasks = 0;
  const observer = new PerformanceObserver((list) => {
    longTasks += list.getEntries().length;
  });
  observer.observe({ type: 'longtask' });
  const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
  const frames: number[] = [];
  let before = await frame();
  for (;;) {
    const at = window.scrollY;
    window.scrollBy({ top: window.innerHeight / 2, behavior: 'instant' });
    const now = await frame();
    frames.push(now - before);
    before = now;
    if (window.scrollY === at) break;
  }
  observer.disconnect();
  frames.sort((a, b) => a - b);
  const rank = (share: number) => frames[Math.floor(share * (frames.length - 1))] ?? 0;
  return { frames: frames.length, median: rank(0.5), most: rank(0.95), longest: rank(1), longTasks };
}
