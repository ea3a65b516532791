import { describe, expect, it } from 'vitest';
import { notate } from '../../../src/sheet/notate/index.js';
import { clockWith, notateLine, PPQ, scoreOf, staffOf } from './scores.js';
import { barsOf, named } from './written.js';

const barNumbers = (bars: ReturnType<typeof notate>['bars']) =>
  bars.map(({ bar, bars: many }) => [bar, many]);

// Many-bar rests are common practice (no source); the sign is MEI's multiRest, whose number is that of the bars.
describe('many quiet bars', () => {
  it('of silence are one many-bar rest from four on', () => {
    const four = notateLine([
      [0, 4, 60],
      [20, 4, 60],
    ]);
    expect(barsOf(four.mei)).toEqual(['c4:1', '4R', 'c4:1']);
    expect(barNumbers(four.bars)).toEqual([
      [1, 1],
      [2, 4],
      [6, 1],
    ]);
    const three = notateLine([
      [0, 4, 60],
      [16, 4, 60],
    ]);
    expect(barsOf(three.mei)).toEqual(['c4:1', 'R', 'R', 'R', 'c4:1']);
  });

  it('are quiet in all parts', () => {
    const long = staffOf([
      [0, 4, 60],
      [40, 4, 60],
    ]);
    const other = { ...staffOf([]), notes: [{ id: 'x', tick: 20 * PPQ, endTick: 24 * PPQ, pitch: 64 }] };
    const { mei } = notate(scoreOf([long, other]));
    expect(barsOf(mei, 1)).toEqual(['c4:1', '4R', 'R', '4R', 'c4:1']);
    expect(barsOf(mei, 3)).toEqual(['R', '4R', 'e4:1', '4R', 'R']);
  });

  it('through which a note is held have the sign on the line below, and a tie over it', () => {
    const { mei } = notateLine([[0, 4 * 30, 60]]);
    expect(barsOf(mei, 1)).toEqual(['c4:1~', 'S', 'c4:1']);
    expect(barsOf(mei, 2)).toEqual(['S', '28R', 'S']);
    expect(named(mei, 'tie').map(({ attribs }) => [attribs.startid, attribs.endid])).toEqual([
      ['#n0', '#n0-2'],
    ]);
    // Eight bars are not many.
    expect(barsOf(notateLine([[0, 32, 60]]).mei)).toHaveLength(8);
  });

  it('end where the meter changes, a key begins, or a chord is named', () => {
    const line = [
      [0, 4, 60],
      [64, 4, 60],
    ] as const;
    const meters = notateLine(line, { clock: clockWith([[32, 2, 4]]) });
    expect(barNumbers(meters.bars)).toEqual([
      [1, 1],
      [2, 7],
      [9, 16],
      [25, 1],
      [26, 1],
    ]);
    const keys = notateLine(line, {
      keys: [
        { tick: 0, fifths: 0 },
        { tick: 28 * PPQ, fifths: 2 },
      ],
    });
    expect(barNumbers(keys.bars)).toEqual([
      [1, 1],
      [2, 6],
      [8, 9],
      [17, 1],
    ]);
    const chords = notateLine(line, { chords: [{ tick: 28 * PPQ, text: 'C' }] });
    expect(barNumbers(chords.bars)).toEqual([
      [1, 1],
      [2, 6],
      [8, 1],
      [9, 8],
      [17, 1],
    ]);
  });

  it('are counted in words where the engraver has no number for them', () => {
    const { mei } = notateLine([
      [0, 4, 60],
      [4 * 1500, 4, 60],
    ]);
    expect(barsOf(mei)).toEqual(['c4:1', '1499R', 'c4:1']);
    expect(named(mei, 'multiRest').map(({ attribs }) => attribs['num.visible'])).toEqual(['false']);
    expect(mei).toContain('>1499 bars</dir>');
  });

  it('cost nothing: a note held over the longest delta of the format, 0FFFFFFF, is three bars', () => {
    const clock = clockWith([[0, 1, 4]], 120, 1);
    const notes = [{ id: 'n', tick: 0, endTick: 0x0fffffff, pitch: 60 }];
    const { bars } = notate({ ...scoreOf([{ label: '', notes, words: [] }]), clock });
    expect(barNumbers(bars)).toEqual([
      [1, 1],
      [2, 0x0fffffff - 2],
      [0x0fffffff, 1],
    ]);
  });
});
