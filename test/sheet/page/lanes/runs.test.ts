import { describe, expect, it } from 'vitest';
import { letterWidth } from '../../../../src/sheet/page/lanes/lane.js';
import { labelsOf, runsLane } from '../../../../src/sheet/page/lanes/runs.js';
import type { Run } from '../../../../src/sheet/page/runs.js';
import { sheetPart } from '../support.js';

/** Ticks are units, so many letters long. */
const columnsOf = (letters: number, from = 0) => ({
  from,
  to: from + letters * letterWidth,
  left: 0,
  right: letters * letterWidth,
  xAt: (tick: number) => Math.max(0, tick - from),
});
const run = (articulation: string, letters: number, to: number, sent?: string): Run => {
  const from = letters * letterWidth;
  const switched = sent === undefined ? {} : { switched: { tick: from, sent } };
  return { articulation, from, to: to * letterWidth, ...switched };
};
const said = (runs: readonly Run[], letters = 100, from = 0, isNamedAgain = true) =>
  labelsOf(runs, columnsOf(letters, from), isNamedAgain).map(({ names, sent }) => [names.join(' / '), sent]);

describe('names of articulations', () => {
  it('stand with what is sent where there is room, else alone', () => {
    expect(said([run('long', 0, 40, 'C1'), run('short', 40, 90, 'D1')])).toEqual([
      ['long', 'C1'],
      ['short', 'D1'],
    ]);
    expect(said([run('long', 0, 6, 'C1 and D1'), run('short', 6, 90, 'D1')])).toEqual([
      ['long', ''],
      ['short', 'D1'],
    ]);
    expect(said([run('key', 0, 40)])).toEqual([['key', '']]);
  });

  it('stand together where articulations change faster than they can be named, each once', () => {
    const runs = [0, 3, 6, 9, 12].map((at, index) =>
      run(index % 2 === 0 ? 'staccato' : 'legato', at, at + 3, 'C1'),
    );
    expect(said([...runs, run('tremolo', 30, 90, 'D1')])).toEqual([
      // Three runs of three letters each are too little, and six of 18 letters in all.
      ['staccato / legato', ''],
      ['tremolo', 'D1'],
    ]);
  });

  it('are said again in the next system, without what was sent before it, where the part has several', () => {
    const runs = [run('long', 0, 150, 'C1')];
    expect(said(runs, 100, 50 * letterWidth)).toEqual([['long', '']]);
    expect(said(runs, 100, 50 * letterWidth, false)).toEqual([]);
  });

  it('are lines as long as the notes, and texts', () => {
    const lane = { part: sheetPart(), columns: columnsOf(100), y: 2000, rise: 500 };
    const drawn = runsLane(lane, [run('<b>', 0, 10, '&')], true);
    expect(drawn).toContain(`d="M0 2000H${Math.round(10 * letterWidth)}"`);
    expect(drawn).toMatch(/>&lt;b&gt;<tspan[^>]*>&amp;<\/tspan>/u);
    expect(runsLane(lane, [], true)).toBe('');
  });
});
