import { existsSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { sheetOf } from '../../src/sheet/collect.js';
import { makeEngraver } from '../../src/sheet/engrave/index.js';
import { notate } from '../../src/sheet/notate/index.js';
import { pageOf } from '../../src/sheet/page/index.js';
import { scoreOf } from '../../src/sheet/score.js';
import type { SheetTask } from '../../src/sheet/task.js';
import { executablePath, openBrowser } from '../external/sheet/browser.js';

/** The sheet of a large cue, step by step: its size, and where its time goes. Unit: ms. */
export async function printSheet(task: SheetTask, file: string): Promise<void> {
  const engrave = await makeEngraver();
  const times = new Map<string, number>();
  const timed = <T>(what: string, step: () => T): T => {
    const began = performance.now();
    const value = step();
    times.set(what, performance.now() - began);
    return value;
  };
  const sheet = timed('collect', () => sheetOf(task));
  const notation = timed('notate', () => notate(scoreOf(sheet)));
  const systems = timed('engrave', () => engrave(notation.mei));
  const page = timed('page', () => pageOf(sheet, notation, systems));
  writeFileSync(file, page);
  const notes = sheet.parts.reduce((sum, part) => sum + part.notes.length, 0);
  const whole = [...times.values()].reduce((sum, time) => sum + time, 0);
  const said = [...times].map(([what, time]) => `${what} ${time.toFixed(0)}`).join(', ');
  console.log(
    `sheet of ${notes} notes in ${sheet.parts.length} parts, ${systems.length} systems: ${(page.length / 1e6).toFixed(1)} MB; whole ÷ engraving ${(whole / (times.get('engrave') ?? 1)).toFixed(2)} (ms: ${said})`,
  );
  if (existsSync(executablePath)) await printTrace(file);
  else console.log('  no browser here (npm run test:external installs it): the page was not opened');
}

/** What the browser itself measures while it opens the page and scrolls through it. */
async function printTrace(file: string): Promise<void> {
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
  console.log(
    `  opened in ${loaded.toFixed(0)} ms (script ${inMs(opened, 'ScriptDuration')}, style ${inMs(opened, 'RecalcStyleDuration')}, layout ${inMs(opened, 'LayoutDuration')}), ${opened.get('Nodes')} nodes, ${((opened.get('JSHeapUsedSize') ?? 0) / 1e6).toFixed(0)} MB of script heap`,
  );
  const layout = (after.get('LayoutDuration') ?? 0) - (opened.get('LayoutDuration') ?? 0);
  console.log(
    `  scrolled through in ${scrolled.frames} frames: median ${scrolled.median.toFixed(0)} ms, 95 % within ${scrolled.most.toFixed(0)} ms, longest ${scrolled.longest.toFixed(0)} ms; tasks over 50 ms: ${scrolled.longTasks}; layout ${(layout * 1000).toFixed(0)} ms in all`,
  );
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
