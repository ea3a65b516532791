import { describe, expect, it } from 'vitest';
import { compileParts } from '../../../src/compile/index.js';
import { asPlayed, type TimingOptions } from '../../../src/timing/options.js';
import { nowIn } from '../../support/decided.js';
import { speaking } from '../../support/retimed.js';
import { songOf, type TestNote, trackOf } from '../../support/song.js';

/** At ppq 500 and 120 bpm a tick is a millisecond, and a quarter has 500. */
function told(notes: readonly TestNote[], timing: Partial<TimingOptions>) {
  const song = songOf([trackOf(notes)], { ppq: 500 });
  const part = { track: 1, trackName: '', channel: 0 };
  const job = { part, map: speaking('0ms', '0ms'), timing: { ...asPlayed, ...timing } };
  const { parts, diagnostics } = compileParts(song, [job]);
  return {
    starts: nowIn(parts[0]).map(({ note }) => note.tick),
    told: diagnostics.map(({ code, message }) => `${code}: ${message}`),
  };
}

describe('held-back', () => {
  it('tells how many onsets were pulled less than asked, by how much at most, and why', () => {
    // The chord would go 40 ticks later, but the note behind its last has no place of its own, and stays.
    const notes = [
      { tick: 1960, end: 2200, pitch: 60 },
      { tick: 2010, end: 2200, pitch: 64 },
      { tick: 2045, end: 2200, pitch: 50 },
    ];
    const { starts, told: lines } = told(notes, { pull: 1, grids: [{ numerator: 1, denominator: 4 }] });
    expect(starts).toEqual([1994, 2044, 2045]);
    expect(lines).toEqual([
      'held-back: an onset is pulled by up to 6 ms less than asked, so as to stay apart from the onsets beside',
    ]);
  });

  it('a chord that has little room is rolled less than asked', () => {
    const notes = [1000, 1050, 1100].flatMap((tick) =>
      [60, 64, 67].map((pitch) => ({ tick, end: tick + 30, pitch })),
    );
    const { told: lines, starts = [] } = told(notes, { roll: { sdMs: 60, order: 'unordered' } });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(
      /^held-back: \d onsets, this one first, are rolled by up to \d+ ms less than asked/u,
    );
    const [first = [], second = [], third = []] = [0, 3, 6].map((at) => starts.slice(at, at + 3));
    expect(Math.max(...first)).toBeLessThan(Math.min(...second));
    expect(Math.max(...second)).toBeLessThan(Math.min(...third));
  });
});
