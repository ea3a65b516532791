import { describe, expect, it } from 'vitest';
import { waitingNotes } from '../../src/prove/expected-notes.js';
import { kindsOf, library, note as played, tap } from './events.js';

const note = (tick: number, pitch: number, onOrdinal: number, articulation: string) => ({
  tick,
  pitch,
  onOrdinal,
  articulation,
});

describe('waitingNotes', () => {
  it('gives notes by tick and pitch, each once, and among equals in their order', () => {
    const waiting = waitingNotes([note(5, 60, 2, 'c'), note(5, 60, 1, 'b'), note(5, 61, 0, 'a')]);
    expect(waiting.take(5, 60)?.articulation).toBe('b');
    expect(waiting.take(5, 62)).toBeUndefined();
    expect(waiting.take(4, 60)).toBeUndefined();
    expect(waiting.left().map(({ articulation }) => articulation)).toEqual(['a', 'c']);
    expect(waiting.take(5, 60)?.articulation).toBe('c');
    expect(waiting.take(5, 60)).toBeUndefined();
    expect(waiting.take(5, 61)?.articulation).toBe('a');
    expect(waiting.left()).toEqual([]);
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
