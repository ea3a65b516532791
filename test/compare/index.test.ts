import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ChangedNote, type Compared, compareExamples, compareMaps } from '../../src/compare/index.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import type { Song } from '../../src/midi/song.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { detached } from '../support/decided.js';
import { draws } from '../support/draws.js';
import { msTicks } from '../support/line.js';
import { ladderMap, mapOf } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

function compare(song: Song, a: ArticulationMap, b: ArticulationMap) {
  return compareMaps(song, song.tracks.flatMap(partsOf), a, b);
}

/** The notes that change in the first music, with their reasons, as JSON has them. */
function changedIn([first]: readonly Compared[]): readonly ChangedNote[] {
  return JSON.parse(JSON.stringify([...(first?.changed ?? [])]));
}

/** A ladder whose first bound, between short and medium, lies elsewhere. */
function boundAt(ms: number, more = ''): ArticulationMap {
  return mapOf(`${more}${ladderMap.replaceAll('130ms', `${ms}ms`)}`);
}

describe('two maps over one recording', () => {
  // A tick is a millisecond. By hand: 150, 155 and 159 ms lie from 150 up and below 160; 149 and 160 do not.
  const song = songOf([trackOf(detached([149, 150, 100, 155, 160, 400, 159]))], msTicks);

  it('change the notes between the old bound and the new, and no other', () => {
    const { parts, diagnostics } = compare(song, boundAt(160), boundAt(150));
    expect(diagnostics).toEqual([]);
    expect(parts).toHaveLength(1);
    expect(parts[0]?.notes).toBe(7);
    expect(
      changedIn(parts).map(({ number, from, to }) => [number, from.articulation, to.articulation]),
    ).toEqual([
      [2, 'short', 'medium'],
      [4, 'short', 'medium'],
      [7, 'short', 'medium'],
    ]);
  });

  it('say where, by which rules, and why', () => {
    const [first] = changedIn(compare(song, boundAt(160), boundAt(150)).parts);
    // The second note begins 149 + 20 ms in; a beat of 120 bpm is 500 ms.
    expect(first).toMatchObject({
      tick: 169,
      bar: 1,
      beat: 1,
      pitch: 60,
      from: { rule: 1 },
      to: { rule: 2 },
    });
    expect(first?.from.reason).toMatch(/^test\.yaml:\d+: held 150 ms \(below 160ms\)$/u);
    expect(first?.to.reason).toMatch(/^test\.yaml:\d+: held 150 ms \(150ms to below 320ms\)$/u);
  });

  it('tell a change by steadiness as such', () => {
    const sticky = boundAt(160, 'steadiness: 10%\n');
    const near = songOf([trackOf(detached([100, 165, 100]))], msTicks);
    const [only, ...others] = changedIn(compare(near, boundAt(160), sticky).parts);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ number: 2, to: { articulation: 'short', insteadOf: 2 } });
    expect(only?.to.reason).toContain('kept with the 1 onset before it and the 1 onset after it');
  });

  it('are compared note by note, also where they hear other chords', () => {
    // 60 ms apart: one onset for the first map, two for the second. The lower note comes first in the file.
    const window = (ms: number) =>
      mapOf(
        `chord-window: ${ms}ms\n${ladderMap.replace('overlaps-next: true', 'overlaps-next: true, chord: {to: 1}')}`,
      );
    const chord = songOf(
      [
        trackOf([
          { tick: 0, end: 110, pitch: 64 },
          { tick: 60, end: 500, pitch: 60 },
        ]),
      ],
      msTicks,
    );
    const changed = changedIn(compare(chord, window(80), window(20)).parts);
    // The chord's highest note is held 110 ms: short for both. Apart, the first is joined to the second, which is long.
    expect(changed.map(({ pitch, from, to }) => [pitch, from.articulation, to.articulation])).toEqual([
      [64, 'short', 'joined'],
      [60, 'short', 'long'],
    ]);
  });

  it('have no bars to tell where the file counts frames', () => {
    const smpte = { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } };
    const frames = songOf([trackOf([{ tick: 10, end: 165, pitch: 60 }])], smpte);
    expect(changedIn(compare(frames, boundAt(160), boundAt(150)).parts)).toMatchObject([
      { tick: 10, bar: null, beat: null },
    ]);
  });

  it('find once what both find, and say which map it is that finds more', () => {
    const high = songOf([trackOf([{ tick: 0, end: 100, pitch: 100 }])], msTicks);
    const narrow = mapOf(`range: [C2, C6]\n${ladderMap}`);
    expect(compare(high, narrow, narrow).diagnostics.map(({ code }) => code)).toEqual(['note-out-of-range']);
    const [only, ...others] = compare(high, mapOf(ladderMap), narrow).diagnostics;
    expect(others).toEqual([]);
    expect(only?.message).toMatch(/ \(by "test\.yaml"\)$/u);
  });
});

describe('examples', () => {
  const example = (held: string, expected: string) =>
    `  - notes: [{pitch: C4, held: ${held}}]\n    expect: [${expected}]\n`;
  const ladder = (bound: number, ...examples: readonly string[]) =>
    mapOf(`${ladderMap.replaceAll('130ms', `${bound}ms`)}\nexamples:\n${examples.join('')}`);

  it('of both maps are decided by both, each once, whatever they expect', () => {
    const a = ladder(160, example('90ms', 'short'), example('155ms', 'short'));
    const b = ladder(150, example('155ms', 'medium'), example('400ms', 'long'));
    const compared = compareExamples(a, b);
    expect(compared.map(({ number, notes, changed }) => [number, notes, changed.length])).toEqual([
      [1, 1, 1],
      [2, 1, 0],
      [1, 1, 0],
    ]);
    expect(changedIn(compared)[0]).toMatchObject({
      number: 1,
      from: { articulation: 'short' },
      to: { articulation: 'medium' },
    });
  });

  it('are played at their own pace', () => {
    const eighth = '  - notes: [{pitch: C4, held: 1/8}]\n    expect: [medium]\n    bpm: ';
    // An eighth is 155 ms at 193.5 bpm and 250 ms at 120 bpm.
    const compared = compareExamples(
      ladder(160, example('90ms', 'short')),
      ladder(150, `${eighth}193.5\n`, `${eighth}120\n`),
    );
    expect(compared.map(({ changed }) => changed.length)).toEqual([1, 0, 0]);
  });

  it('may be missing', () => {
    expect(compareExamples(mapOf(ladderMap), mapOf(ladderMap))).toEqual([]);
  });
});

describe('a map and itself', () => {
  for (const method of methods)
    it(`give every note the same, whatever is played (${method})`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, (map, notes) => {
          const song = songOf([trackOf(notes)]);
          const { parts } = compare(song, map, map);
          expect(parts.map((part) => part.notes)).toEqual([notes.length]);
          expect(parts.flatMap(({ changed }) => [...changed])).toEqual([]);
        }),
        { numRuns: draws(40) },
      );
    });

  it('and another one differ in the same notes, whichever comes first', () => {
    fc.assert(
      fc.property(mapOfMethod('latching'), mapOfMethod('mixed'), randomLine, (a, b, notes) => {
        const song = songOf([trackOf(notes)]);
        const there = changedIn(compare(song, a, b).parts);
        const back = changedIn(compare(song, b, a).parts);
        expect(back).toEqual(there.map(({ from, to, ...place }) => ({ ...place, from: to, to: from })));
      }),
      { numRuns: draws(60) },
    );
  });
});
