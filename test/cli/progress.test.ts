import { afterEach, describe, expect, it, vi } from 'vitest';
import { progressLine, whileWaiting } from '../../src/cli/progress.js';

afterEach(() => {
  vi.restoreAllMocks();
});

/** A terminal that notes the lines of progress. */
const terminal = (lines: string[]) => ({
  stdin: async () => new Uint8Array(),
  out: () => {},
  err: () => {},
  color: false,
  progress: (text: string) => void lines.push(text),
});

/** Lines that are shown when steps are told at these times, in ms. */
function shown(
  times: readonly number[],
  options: { readonly quiet?: boolean; readonly json?: boolean } = {},
) {
  const lines: string[] = [];
  const clock = vi.spyOn(performance, 'now').mockReturnValue(0);
  const line = progressLine(terminal(lines), options);
  times.forEach((time, index) => {
    clock.mockReturnValue(time);
    line.step(index + 1, times.length, 'Horns\u001b[2J');
  });
  line.end();
  return lines;
}

describe('the progress line', () => {
  it('tells how far long work has come, and goes when it is done', () => {
    expect(shown([100, 500, 900])).toEqual([
      'part 2 of 3: Horns\\u{1b}[2J',
      'part 3 of 3: Horns\\u{1b}[2J',
      '',
    ]);
  });
  it('is not shown for short work, with --quiet, or with --json', () => {
    expect(shown([10, 20, 30])).toEqual([]);
    expect(shown([500, 900], { quiet: true })).toEqual([]);
    expect(shown([500, 900], { json: true })).toEqual([]);
  });
});

describe('what is waited for', () => {
  /** Lines that are shown for work of so many ms. */
  async function waitingFor(ms: number, options: { readonly quiet?: boolean } = {}) {
    vi.useFakeTimers();
    const lines: string[] = [];
    const work = new Promise<number>((resolve) => setTimeout(resolve, ms, 7));
    const result = whileWaiting(terminal(lines), options, 'looking for maps', work);
    await vi.advanceTimersByTimeAsync(ms);
    vi.useRealTimers();
    return { lines, result: await result };
  }

  it('is told once it takes long, and its line goes', async () => {
    expect(await waitingFor(2000)).toEqual({ lines: ['looking for maps', ''], result: 7 });
  });
  it('is not told for short work, or with --quiet', async () => {
    expect(await waitingFor(20)).toEqual({ lines: [], result: 7 });
    expect(await waitingFor(2000, { quiet: true })).toEqual({ lines: [], result: 7 });
  });
});
