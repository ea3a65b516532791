import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phrasesOf } from '../../src/dynamics/phrases.js';
import { draws } from '../support/draws.js';
import { line, type Written } from './struck.js';

const spans = (notes: readonly Written[]) => phrasesOf(line(notes)).map(({ first, last }) => [first, last]);

/** Notes of so many ms that follow one another at once. */
const joined = (...paces: number[]): Written[] => paces.map((pace) => ({ pace }));

describe('phrasesOf', () => {
  it('ends a phrase before a rest', () => {
    const notes = joined(500, 500, 500, 1500, 500, 500, 500, 500);
    expect(spans(notes.map((note, i) => (i === 3 ? { ...note, held: 500 } : note)))).toEqual([
      [0, 3],
      [4, 7],
    ]);
  });

  it('ends a phrase with a long note', () => {
    expect(spans(joined(250, 250, 250, 250, 1000, 250, 250, 250, 250, 1000))).toEqual([
      [0, 4],
      [5, 9],
    ]);
  });

  it('ends a phrase with a breath mark, whatever the rhythm', () => {
    expect(spans(joined(300, 300, 300, 300, 300).map((note, i) => ({ ...note, breath: i === 1 })))).toEqual([
      [0, 1],
      [2, 4],
    ]);
  });

  it('does not take dotted rhythms, staccato or an even run for phrase ends', () => {
    expect(spans(joined(...Array.from({ length: 12 }, (_, i) => (i % 2 === 0 ? 750 : 250))))).toEqual([
      [0, 11],
    ]);
    expect(spans(joined(...Array.from({ length: 12 }, (_, i) => (i % 3 === 0 ? 500 : 250))))).toEqual([
      [0, 11],
    ]);
    expect(spans(Array.from({ length: 9 }, () => ({ pace: 400, held: 80 })))).toEqual([[0, 8]]);
    expect(spans(Array.from({ length: 40 }, () => ({ pace: 90 })))).toEqual([[0, 39]]);
  });

  it('does not break a line after its first long notes', () => {
    expect(spans(joined(2000, 250, 250, 250, 250))).toEqual([[0, 4]]);
  });

  it('names the highest onset, the earliest of several', () => {
    const pitches = [60, 64, 67, 67, 62];
    expect(phrasesOf(line(pitches.map((pitch) => ({ pace: 500, pitch }))))[0]?.peak).toBe(2);
  });

  it('puts every onset in one phrase, in order', () => {
    const written = fc.record({
      pace: fc.integer({ min: 20, max: 4000 }),
      held: fc.integer({ min: 10, max: 4000 }),
      pitch: fc.integer({ min: 40, max: 80 }),
      breath: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(written, { maxLength: 60 }), (notes) => {
        const phrases = phrasesOf(line(notes));
        const covered = phrases.flatMap(({ first, last }) =>
          Array.from({ length: last - first + 1 }, (_, i) => first + i),
        );
        expect(covered).toEqual(notes.map((_, index) => index));
        for (const { first, last, peak } of phrases) {
          const inside = notes.slice(first, last + 1).map(({ pitch }) => pitch);
          expect(notes[peak]?.pitch).toBe(Math.max(...inside));
        }
      }),
      { seed: 8, numRuns: draws(200) },
    );
    expect(phrasesOf([])).toEqual([]);
  });
});
