import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';
import { lineOfNotes, msTicks } from '../../support/line.js';
import { diagnosed } from '../read/diagnosed.js';

/** Notes of [onset, held] in ms. */
const notesOf = (...notes: readonly (readonly [number, number])[]) =>
  notes.map(([tick, held], index) => ({ tick, end: tick + held, pitch: 60 + index }));
const shares = (...notes: readonly (readonly [number, number])[]) =>
  lineOfNotes(notesOf(...notes), [], msTicks).notes.map(({ heldShare }) => heldShare);

describe('held-share', () => {
  it('is held divided by pace, from inclusive and below exclusive, over 100 % where notes overlap', () => {
    const notes = notesOf([0, 100], [400, 200], [800, 480], [1200, 400], [1600, 400]);
    expect(fitting('{held-share: {below: 50%}}', notes)).toEqual([true, false, false, false, false]);
    expect(fitting('{held-share: {from: 50%, below: 100%}}', notes)).toEqual([
      ...[false, true, false, false, false],
    ]);
    expect(fitting('{held-share: {from: 120%}}', notes)).toEqual([false, false, true, false, false]);
  });

  it('measures a note before a rest by the interval of its neighbours, and it fills that at most', () => {
    // Quarters, then a rest of two bars: the third note is short, or long, for a quarter.
    expect(shares([0, 100], [500, 100], [1000, 100], [5000, 400], [5500, 400])).toEqual([
      ...[0.2, 0.2, 0.2, 0.8, 0.8],
    ]);
    expect(shares([0, 450], [500, 450], [1000, 900], [5000, 400], [5500, 400])[2]).toBe(1);
  });

  it('measures the last note so too; a note alone fills all there is', () => {
    expect(shares([0, 250], [500, 100])).toEqual([0.5, 0.2]);
    expect(shares([0, 100])).toEqual([1]);
  });

  it('takes no dotted rhythm and no even detached notes for rests', () => {
    expect(shares([0, 300], [750, 125], [1000, 300], [1750, 125])[0]).toBeCloseTo(0.4);
    expect(shares([0, 100], [1000, 100], [2000, 100], [3000, 100])).toEqual([0.1, 0.1, 0.1, 0.1]);
  });

  it('is written as a share, the lower bound first', () => {
    const when = (text: string) =>
      diagnosed(
        `articulations: {a: {}}\nrules:\n  - {when: {held-share: ${text}}, use: a}\n  - use: a\n`,
      ).map((one) => one.split(':')[0]);
    expect(when('{from: 20%, below: 120.5%}')).toEqual([]);
    expect(when('{below: 0.5}')).toEqual(['bad-percentage']);
    expect(when('{from: 60%, below: 50%}')).toContain('range-reversed');
  });
});
