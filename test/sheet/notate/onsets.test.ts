import { describe, expect, it } from 'vitest';
import { notate } from '../../../src/sheet/notate/index.js';
import { clockWith, lineOf, notateLine, type Played, type Signature, scoreOf, staffOf } from './scores.js';
import { barsOf } from './written.js';

const scale = [60, 62, 64, 65, 67, 69, 71, 72];

/** The same line with each onset up to 12 ms early or late at 120 quarters a minute. */
const uneven = (line: readonly Played[]): readonly Played[] =>
  line.map(([onset, length, pitch], index) => [
    Math.max(0, onset + (((index * 7) % 5) - 2) / 80),
    length,
    pitch,
  ]);

// Common practice, no source.
describe('rhythms in 4/4, on the grid and played unevenly', () => {
  it.each([
    ['a scale', [1, 1, 1, 1], ['c4:4 d4:4 e4:4 f4:4']],
    ['dotted quarters', [1.5, 0.5, 2], ['c4:4. d4:8 e4:2']],
    ['dotted eighths', [0.75, 0.25, 1, 2], ['{c4:8. d4:16} e4:4 f4:2']],
    ['sixteenths', [0.25, 0.25, 0.5, 0.5, 0.25, 0.25, 2], ['{c4:16 d4:16 e4:8} {f4:8 g4:16 a4:16} b4:2']],
    ['syncopation', [0.5, 1, 1, 1, 0.5], ['c4:8 d4:4 e4:8~ e4:8 f4:4 g4:8']],
    ['a tie over the bar line', [3, 2, 3], ['c4:2. d4:4~', 'd4:4 e4:4~ e4:2']],
    ['a tie over whole bars', [2, 8, 2], ['c4:2 d4:2~', 'd4:1~', 'd4:2 e4:2']],
  ])('%s', (_, values, bars) => {
    expect(barsOf(notateLine(lineOf(values, scale)).mei)).toEqual(bars);
    expect(barsOf(notateLine(uneven(lineOf(values, scale))).mei)).toEqual(bars);
  });
});

describe('rhythms in other meters', () => {
  it.each([
    ['6/8', [0.5, 0.5, 0.5, 1, 0.5], ['{c4:8 d4:8 e4:8} f4:4 g4:8']],
    ['6/8', [0.75, 0.25, 0.5, 1.5], ['{c4:8. d4:16 e4:8} f4:4.']],
    ['6/8', [1, 1, 1], ['c4:4 d4:8~ d4:8 e4:4']],
    ['9/8', [3, 1.5], ['c4:2. d4:4.']],
    ['3/4', [1, 2, 0.5, 1, 1.5], ['c4:4 d4:2', 'e4:8 f4:4 g4:8~ g4:4']],
    ['7/8', Array(7).fill(0.5), ['{c4:8 d4:8} {e4:8 f4:8} {g4:8 a4:8 b4:8}']],
    ['2/2', [1, 1, 2], ['c4:4 d4:4 e4:2']],
    ['3/8', [0.5, 0.5, 0.5], ['{c4:8 d4:8 e4:8}']],
  ])('%s: %j', (meter, values, bars) => {
    const [count = 4, unit = 4] = meter.split('/').map(Number);
    const clock = clockWith([[0, count, unit]]);
    expect(barsOf(notateLine(uneven(lineOf(values, scale)), { clock }).mei)).toEqual(bars);
  });

  it('a change of meter, with a note into the new bar', () => {
    const signatures: readonly Signature[] = [
      [0, 3, 4],
      [3, 6, 8],
    ];
    const { mei } = notateLine(lineOf([2, 2.5, 0.5, 0.5, 0.5], scale), { clock: clockWith(signatures) });
    expect(barsOf(mei)).toEqual(['c4:2 d4:4~', 'd4:4. {e4:8 f4:8 g4:8}']);
  });
});

describe('places', () => {
  it('an onset ahead of a bar line is written behind it', () => {
    const { mei, bars } = notateLine([
      [0, 2, 60],
      [3.98, 2, 62],
    ]);
    expect(barsOf(mei)).toEqual(['c4:2 r:2', 'd4:2 r:2']);
    expect(bars).toHaveLength(2);
  });

  it('an onset ahead of a change of meter keeps its own place beside one that follows', () => {
    const clock = clockWith([[4, 6, 8]]);
    const { positions } = notateLine(
      [
        [0, 1, 60],
        [3.97, 0.1, 62],
        [4.1, 1, 64],
      ],
      { clock },
    );
    expect(positions.get('n1')).toBe(4 * 480);
    expect(positions.get('n2')).toBeGreaterThan(4 * 480);
  });

  it('so does one ahead of a change of meter to triplets', () => {
    const clock = clockWith([[3, 2, 4]]);
    const { mei } = notateLine(
      [
        [0, 2.9, 60],
        [2.96, 0.1, 62],
        [3.08, 0.2, 64],
        [3 + 1 / 3, 1 / 3, 65],
        [3 + 2 / 3, 1 / 3, 67],
        [4, 1, 69],
      ],
      { clock },
    );
    expect(barsOf(mei)).toEqual(['c4:2.', '6:4({d4:16 e4:16 f4:8 g4:8}) a4:4']);
  });

  it('an upbeat behind empty bars', () => {
    const { mei } = notateLine(lineOf([1, 2], [67, 72], 0.95, 7));
    expect(barsOf(mei)).toEqual(['R', 'r:2 r:4 g4:4', 'c5:2 r:2']);
  });

  it('a staff without notes has empty bars', () => {
    const { mei, positions } = notate(scoreOf([staffOf([]), staffOf([[0, 6, 60]])]));
    expect(barsOf(mei, 1)).toEqual(['R', 'R']);
    expect(barsOf(mei, 2)).toEqual(['S', 'S']);
    expect(positions.get('r1-2-0')).toBe(4 * 480);
  });

  it('more onsets in a beat than any grid has room for are still written', () => {
    // 4 quarters a minute: a quarter lasts 15 s, 300 onsets are 50 ms apart.
    const line = Array.from({ length: 300 }, (_, index): Played => [index / 300, 0.001, 60 + (index % 12)]);
    const { positions, mei } = notateLine(line, { clock: clockWith([], 4, 9600) });
    expect(line.every((_, index) => positions.has(`n${index}`))).toBe(true);
    expect(mei).not.toContain('dur="2048"');
  });
});

describe('notes struck together', () => {
  it('within 35 ms are a chord', () => {
    const { mei } = notateLine([
      [0, 1, 60],
      [0.03, 1, 67],
      [0.06, 1, 64],
    ]);
    expect(barsOf(mei)).toEqual(['[c4 e4 g4]:4 r:4 r:2']);
  });

  it('twice the same pitch are two heads', () => {
    const { mei } = notateLine([
      [0, 3.9, 60],
      [0.01, 3.9, 60],
    ]);
    expect(barsOf(mei)).toEqual(['[c4 c4]:1']);
  });
});
