import { describe, expect, it } from 'vitest';
import { type LearnNotes, type MapBound, suggest, suggestText } from '../../../src/learn/index.js';
import { inventNotes, random } from '../invented.js';

/** Notes held around 80 ms and around 400 ms, with the spread of a hand. */
function twoHeaps(): LearnNotes {
  const next = random(4);
  const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  const notes = inventNotes(600, next);
  const heldMs = Float64Array.from(
    { length: 600 },
    (_, row) => (row % 2 ? 80 : 400) * Math.exp(0.2 * normal()),
  );
  return { ...notes, heldMs };
}

const at = (value: number): MapBound => ({ measure: 'held', value, text: `${value}ms` });

describe('suggest', () => {
  const notes = twoHeaps();
  const { falls, bounds } = suggest(notes, [at(80), at(180)]);
  const held = falls.find(({ measure }) => measure === 'held');

  it('finds the break between two heaps, near the middle by ratio', () => {
    expect(held?.breaks).toHaveLength(1);
    const found = held?.breaks[0]?.bound.value ?? 0;
    // Two heaps of one width meet where their ratios are equal: √(80 · 400) = 179.
    expect(found).toBeGreaterThan(140);
    expect(found).toBeLessThan(230);
  });

  it('counts every note in one bar', () => {
    for (const fall of falls) expect(fall.bars.reduce((sum, bar) => sum + bar.notes, 0)).toBe(fall.notes);
  });

  it('says which bound cuts through a heap', () => {
    expect(bounds.map(({ cutsHeap }) => cutsHeap)).toEqual([true, false]);
  });

  it('says what the break would give instead', () => {
    const [cutting] = bounds;
    const to = held?.breaks[0]?.bound.value ?? 0;
    const crossing = Array.from(notes.heldMs).filter((ms) => ms >= 80 && ms < to).length;
    expect(cutting?.alternatives).toMatchObject([{ bound: { value: to }, crossing }]);
    expect(cutting?.below).toBe(Array.from(notes.heldMs).filter((ms) => ms < 80).length);
  });

  it('asks a map what would change', () => {
    const decide = (moved?: { readonly to: number }) =>
      Array.from(notes.heldMs, (ms) => (ms < (moved?.to ?? 80) ? 0 : 1));
    const [finding] = suggest(notes, [at(80)], decide).bounds;
    expect(finding?.alternatives[0]?.changed).toBe(finding?.alternatives[0]?.crossing);
    expect(finding?.switches).toBeGreaterThan(0);
  });

  it('finds no break in one heap', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const next = random(seed);
      const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
      const one = {
        ...notes,
        heldMs: Float64Array.from({ length: 600 }, () => 200 * Math.exp(0.4 * normal())),
      };
      expect(suggest(one, []).falls.find(({ measure }) => measure === 'held')?.breaks).toEqual([]);
    }
  });

  it('does with one note, and with none', () => {
    expect(suggestText(suggest(inventNotes(1, random(1), 1), [at(100)]))).toContain('1 note');
    expect(suggestText(suggest(inventNotes(0, random(1), 1), [at(100)]))).toBe('no notes');
  });
});

describe('suggestText', () => {
  it('shows a histogram with the map’s bounds beside it', () => {
    const text = suggestText(suggest(twoHeaps(), [at(80)]));
    expect(text).toMatch(/█ ← 80ms$/mu);
    expect(text).toContain('it cuts through a heap');
    expect(text).toMatch(/natural break: \d+ms/u);
    for (const line of text.split('\n').filter((one) => one.includes('█')))
      expect(line.length).toBeLessThan(80);
  });
});
