import { describe, expect, it } from 'vitest';
import { lengthsMarkup } from '../../../src/sheet/page/lengths.js';
import { sheetPart } from './support.js';

const bars = [3, 0, 6].map((notes, index) => ({ from: 100 + 50 * index, to: 150 + 50 * index, notes }));
const lengths = (bounds: readonly { value: number; text: string; cutsHeap: boolean }[]) =>
  sheetPart({
    name: 'Horns <1>',
    lengths: [{ measure: 'held', bars, bounds, breaks: ['180ms'] }],
  });

describe('the histogram of a part', () => {
  it('has bars as high as there are notes', () => {
    const markup = lengthsMarkup({ parts: [lengths([])] });
    const heights = [...markup.matchAll(/<rect [^>]*height="(\d+)"/gu)].map(([, height]) => Number(height));
    expect(heights).toEqual([32, 0, 64]);
    expect(markup).toContain('100 ms to 150 ms: 3, 150 ms to 200 ms: 0, 200 ms to 250 ms: 6');
    expect(markup).toContain('Horns &lt;1&gt;, held');
    expect(markup).toContain('natural break: 180ms');
  });

  it('has the bounds of the map where they lie, and says in words which cuts through a heap', () => {
    const markup = lengthsMarkup({
      parts: [
        lengths([
          { value: 175, text: '175ms', cutsHeap: false },
          { value: 225, text: '225ms', cutsHeap: true },
        ]),
      ],
    });
    expect(markup).toMatch(/<line class="fall-bound" x1="24"/u);
    expect(markup).toMatch(/<line class="fall-cuts" x1="40"/u);
    expect(markup).toContain('225ms cuts through a heap');
    expect(markup).not.toContain('175ms cuts');
  });

  it('names bounds that are near each other one above the other', () => {
    const bounds = [160, 165, 170].map((value) => ({ value, text: `${value}ms`, cutsHeap: false }));
    const heights = [...lengthsMarkup({ parts: [lengths(bounds)] }).matchAll(/y="(\d+)"[^>]*>\d+ms</gu)];
    expect(new Set(heights.map(([, y]) => y)).size).toBe(3);
  });

  it('is not there where nothing was measured', () => {
    expect(lengthsMarkup({ parts: [sheetPart()] })).toBe('');
  });
});
