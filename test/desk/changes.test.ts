import { describe, expect, it } from 'vitest';
import { compileParts, partsOf } from '../../src/compile/index.js';
import { changesBetween, sheetIds } from '../../src/desk/index.js';
import { ladderMap, mapOf } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

const name = 'Horns \u202e';

/** Notes a beat apart (480 ticks; 500 ms), each held so long. */
function take(held: readonly number[], below = '130ms', key = 'horns') {
  const notes = held.map((ticks, index) => ({ tick: 480 * index, end: 480 * index + ticks, pitch: 60 }));
  const song = songOf([trackOf(notes, [], 'Horns')]);
  const map = mapOf(ladderMap.replaceAll('130ms', below));
  const { parts } = compileParts(
    song,
    song.tracks.flatMap(partsOf).map((part) => ({ part, map })),
  );
  return { song, parts: parts.map((part) => ({ key, name, part })) };
}
// 96 ticks are 100 ms, 192 are 200 ms.
const held = [96, 192, 96, 96, 192, 400];
const before = take(held);
const ids = sheetIds(before, ['horns'], (staff, decision) => `n${staff}-${decision}`);
const changes = (after: ReturnType<typeof take>) => changesBetween(before, after, ids);

describe('what is otherwise on the desk', () => {
  it('is nothing where nothing is', () => {
    expect(changes(take(held))).toEqual({ list: [], decided: 0, of: 6 });
  });

  it('is told by what became what, with bars, the reason and the names of notes on the sheet', () => {
    const { list, decided } = changes(take(held, '210ms'));
    expect(decided).toBe(2);
    expect(list[0]).toEqual({
      part: 'Horns \\u{202e}',
      said: 'medium → short: 2 notes',
      why: expect.stringContaining('held 200 ms (below 210ms)'),
      bars: [{ from: 1, to: 2 }],
      notes: ['n0-1', 'n0-4'],
    });
  });

  it('tells of notes that are new, gone or played otherwise', () => {
    const said = (after: ReturnType<typeof take>) => changes(after).list.map((one) => one.said);
    expect(said(take([...held, 96]))).toContain('new in the recording: 1 note');
    expect(said(take(held.slice(0, -1)))).toContain('gone from the recording: 1 note');
    expect(said(take([100, ...held.slice(1)]))).toContain('played otherwise (length): 1 note');
  });

  it('tells of parts that are new or gone', () => {
    const { list } = changes(take(held, '130ms', 'trumpets'));
    expect(list.map(({ said }) => said)).toEqual(['the part is gone: 6 notes', 'the part is new: 6 notes']);
  });
});
