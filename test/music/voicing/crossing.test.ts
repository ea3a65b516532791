import { describe, expect, it } from 'vitest';
import { crossingsOf, defaultPitches } from '../../../src/music/voicing/crossing.js';
import { note } from './support.js';

const chordOf = (...pitches: readonly (readonly [pitch: number, ...parts: number[]])[]) =>
  pitches.map(([pitch, ...parts]) => ({ pitch, parts }));
/** Viola, cello and bass, say. */
const usual = new Map([
  [0, 64],
  [1, 55],
  [2, 40],
]);

describe('where a part usually lies', () => {
  it('is the mean of its notes by their lengths', () => {
    const notes = [note(60, 0, 300), note(72, 300, 400), note(40, 0, 100, 1)];
    expect([...defaultPitches(notes)]).toEqual([
      [0, 63], // (60 · 300 + 72 · 100) / 400
      [1, 40],
    ]);
  });
});

describe('crossing parts', () => {
  it('are those above one that usually lies higher', () => {
    expect(crossingsOf(chordOf([40, 2], [60, 0], [67, 1]), usual)).toEqual([
      { part: 1, pitch: 67, over: 0, overPitch: 60 },
    ]);
    expect(crossingsOf(chordOf([40, 2], [55, 1], [64, 0]), usual)).toEqual([]);
  });

  it('are none in unison, or where only some of their notes lie above', () => {
    expect(crossingsOf(chordOf([60, 0, 1]), usual)).toEqual([]);
    expect(crossingsOf(chordOf([55, 1], [60, 0], [67, 1]), usual)).toEqual([]);
  });

  it('are none between parts that usually lie together', () => {
    const violins = new Map([
      [0, 76],
      [1, 73.5],
    ]);
    expect(crossingsOf(chordOf([70, 0], [74, 1]), violins)).toEqual([]);
  });

  it('name the part that usually lies highest of those below', () => {
    expect(crossingsOf(chordOf([50, 1], [53, 0], [60, 2]), usual)).toEqual([
      { part: 2, pitch: 60, over: 0, overPitch: 53 },
    ]);
  });
});
