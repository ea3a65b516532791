import { describe, expect, it } from 'vitest';
import {
  type ComparedPart,
  compareArticulations,
  compareExamples,
  compareMaps,
} from '../../src/compare/index.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { comparisonJson, comparisonText } from '../../src/report/comparison.js';
import { detached } from '../support/decided.js';
import { msTicks } from '../support/line.js';
import { ladderMap, mapOf } from '../support/map.js';
import { type SongOptions, songOf, trackOf } from '../support/song.js';

const a = mapOf(ladderMap.replaceAll('130ms', '160ms'));
const b = mapOf(ladderMap.replaceAll('130ms', '150ms'));

function comparison(
  lengths: readonly number[],
  {
    from = a,
    to = b,
    options = msTicks,
  }: { from?: ArticulationMap; to?: ArticulationMap; options?: SongOptions } = {},
) {
  const song = songOf([trackOf(detached(lengths), [], 'Horns \x1b[31m')], options);
  const parts: readonly ComparedPart[] = compareMaps(song, song.tracks.flatMap(partsOf), from, to).parts;
  return { a: from, b: to, parts, examples: [], articulations: compareArticulations(from, to) };
}

describe('a comparison as text', () => {
  it('says bars, articulations, how many notes, and both reasons for the first', () => {
    // A bar is 2000 ms; six notes with 20 ms behind each reach into the second: 2030 ms.
    const lengths = [155, 155, ...Array.from({ length: 4 }, () => 400), 155];
    expect(comparisonText(comparison(lengths), false).split('\n')).toEqual([
      'test.mid, track 1 "Horns \\u{1b}[31m", channel 1: 3 of 7 notes change articulation',
      '  bars 1–2: short → medium, 3 notes, the first C4 at 1.1',
      expect.stringMatching(/^ {6}test\.yaml:\d+: held 155 ms \(below 160ms\)$/u),
      expect.stringMatching(/^ {4}→ test\.yaml:\d+: held 155 ms \(150ms to below 320ms\)$/u),
    ]);
  });

  it('says ticks where there are no bars', () => {
    const options = { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } };
    expect(comparisonText(comparison([155, 155, 500, 155], { options }), false)).toContain(
      '  ticks 0–175: short → medium, 2 notes, the first C4 at tick 0\n',
    );
  });

  it('says in one line that nothing changes, unless quiet', () => {
    const same = comparison([155, 155, 155], { to: a });
    expect(comparisonText(same, false)).toBe('No articulation changes in 3 notes compared.');
    expect(comparisonText(same, true)).toBe('');
  });

  it('tells of articulations that only one map has, and of other switches, each key as its map spells it', () => {
    const other = mapOf(
      ladderMap.replace(
        'short: {switch: {note: C0}}',
        'short: {switch: {note: C#0, aspect: mute}}\n  extra: {}',
      ),
    );
    const told = comparisonText(
      comparison([400], { to: { ...other, file: 'b\x1b.yaml', middleC: 3 } }),
      false,
    );
    expect(told.split('\n')).toEqual([
      'No articulation changes in 1 note compared.',
      '',
      'Only in b\\u{1b}.yaml: extra',
      'Switched differently (not counted as a change):',
      '  short: note C0 (12) → note C#-1 (13) in aspect mute',
    ]);
  });

  it('names the other messages of switches', () => {
    const switched = (messages: string) =>
      mapOf(`articulations:\n  only: {switch: ${messages}}\nrules:\n  - use: only\n`);
    const from = switched('[{program: 4, bank: [0, 2]}, {controller: 20, value: 9}]');
    const to = switched('{channel: 3}');
    expect(comparisonText(comparison([400], { from, to }), false)).toContain(
      '  only: program 4 of bank 0 2, controller 20 at 9 → channel 3',
    );
  });

  it('counts the notes of examples', () => {
    const notes = '[{pitch: C4, held: 155ms}, {pitch: D4, held: 155ms}, {pitch: E4, held: 90ms}]';
    const own = {
      ...b,
      examples: mapOf(`${ladderMap}examples:\n  - notes: ${notes}\n    expect: [medium, medium, short]\n`)
        .examples,
    };
    const examples = [...compareExamples(a, own), ...compareExamples(b, { ...own, file: 'c.yaml' })];
    const told = comparisonText({ ...comparison([]), parts: [], examples }, false);
    expect(told).toMatch(
      /^test\.yaml:\d+:\d+, example 1: 2 of 3 notes change articulation\n {2}notes 1–2: short → medium, 2 notes, the first C4\n/u,
    );
    expect(told).toMatch(/\n\n2 of 6 notes change articulation\.$/u);
    expect(comparisonJson({ ...comparison([]), parts: [], examples })).toMatchObject({
      notes: 6,
      changes: 2,
      parts: [],
      examples: [
        { file: 'test.yaml', example: 1, notes: 3, changed: [{ number: 1 }, { number: 2 }] },
        { notes: 3, changed: [] },
      ],
    });
  });
});
