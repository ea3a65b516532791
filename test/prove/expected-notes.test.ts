import { describe, expect, it } from 'vitest';
import { WaitingNotes } from '../../src/prove/expected-notes.js';
import { kindsOf, library, meantNotes, note as played, tap } from './events.js';

/** Meant notes that wait, each on the key that is its pitch. */
const waitingNotes = (...meant: Parameters<typeof meantNotes>[0]) =>
  new WaitingNotes(
    meantNotes(meant),
    Uint8Array.from(meant, ([, pitch]) => pitch),
  );

describe('WaitingNotes', () => {
  it('gives notes by tick and key, each once, and among equals in their order', () => {
    const waiting = waitingNotes([5, 61, 'a'], [5, 60, 'b'], [5, 60, 'c']);
    expect(waiting.take(5, 60)).toBe(1);
    expect(waiting.take(5, 62)).toBe(-1);
    expect(waiting.take(4, 60)).toBe(-1);
    expect(waiting.left()).toEqual([0, 2]);
    expect(waiting.take(5, 60)).toBe(2);
    expect(waiting.take(5, 60)).toBe(-1);
    expect(waiting.take(5, 61)).toBe(0);
    expect(waiting.left()).toEqual([]);
  });

  it('tells of what is left by key, whatever is asked for between', () => {
    const waiting = waitingNotes([5, 60, 'a'], [5, 61, 'a'], [5, 60, 'a'], [7, 60, 'a'], [9, 60, 'a']);
    expect(waiting.take(9, 60)).toBe(4);
    expect(waiting.take(5, 60)).toBe(0);
    expect(waiting.left()).toEqual([2, 1, 3]);
    expect(waiting.take(7, 60)).toBe(3);
    expect(waiting.take(8, 60)).toBe(-1);
    expect(waiting.take(9, 60)).toBe(-1);
  });

  it('need not come in order of time', () => {
    const waiting = waitingNotes([9, 60, 'a'], [5, 60, 'b']);
    expect(waiting.take(5, 60)).toBe(1);
    expect(waiting.take(9, 60)).toBe(0);
  });
});

describe('where there is no input', () => {
  it('lost and added notes are told by what is meant', () => {
    const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
    const meant = [
      [500, 60, 'one'],
      [1000, 62, 'one'],
    ] as const;
    const output = [...tap(480, 0), ...played(500, 600, 60), ...played(700, 800, 61)];
    expect(kindsOf({ map, meant, output })).toEqual(['added-event', 'missing-event']);
  });
});
