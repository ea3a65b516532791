import { describe, expect, it } from 'vitest';
import { decisionsIn, nowIn } from '../../support/decided.js';
import { retimed, speaking, times } from '../../support/retimed.js';
import type { TestNote } from '../../support/song.js';

describe('roll and loosen', () => {
  const map = speaking('0ms', '0ms');
  const bars = (edited: number | undefined) =>
    Array.from({ length: 60 }, (_, bar) => bar).flatMap((bar): TestNote[] =>
      [0, 500, 1000, 1500].flatMap((beat) =>
        [60, 64, 67]
          .map((pitch) => ({
            tick: bar * 2000 + beat,
            end: bar * 2000 + beat + 300,
            pitch: pitch + (bar === edited ? 2 : 0),
          }))
          .slice(0, beat % 1000 === 0 ? 3 : 1),
      ),
    );

  it('change nothing in bar 39 or 41 when bar 40 changes', () => {
    const options = { roll: { sdMs: 18, order: 'unordered' }, loosenMs: 8 } as const;
    const [before, after] = [undefined, 39].map((edited) => times(retimed(map, bars(edited), options).part));
    const played = bars(undefined).map(({ tick }) => Math.floor(tick / 2000));
    const inBar = (list: typeof before, bar: number) => list?.filter((_, index) => played[index] === bar);
    for (let bar = 0; bar < 60; bar++) if (bar !== 39) expect(inBar(after, bar)).toEqual(inBar(before, bar));
    expect(inBar(after, 39)).not.toEqual(inBar(before, 39));
  });

  it('spread chords, the highest note never late with top-first, and move single notes; the same seed gives the same', () => {
    const options = { roll: { sdMs: 18, order: 'top-first' }, loosenMs: 8 } as const;
    const part = retimed(map, bars(undefined), options).part;
    expect(times(part)).toEqual(times(retimed(map, bars(undefined), options).part));
    expect(times(part)).not.toEqual(times(retimed(map, bars(undefined), { ...options, seed: 2 }).part));
    let spread = 0;
    nowIn(part).forEach(({ note }, index) => {
      const played = decisionsIn(part)[index]?.note.tick ?? 0;
      if (note.chord > 1 && note.pitch === 67) expect(note.tick).toBeLessThanOrEqual(played);
      if (note.tick !== played) spread += 1;
    });
    expect(spread).toBeGreaterThan(300);
  });
});
