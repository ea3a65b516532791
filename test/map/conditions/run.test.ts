import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

const notesAt = (...ticks: number[]) => ticks.map((tick) => ({ tick, end: tick + 60, pitch: 60 }));

describe('run', () => {
  it('needs enough successive onsets, each at the pace; the note that it lands on has a pace of its own', () => {
    const notes = notesAt(0, 100, 200, 300, 1000, 1100, 1200, 2000, 3000);
    expect(fitting('{run: {notes: 3, pace: {below: 150ms}}}', notes)).toEqual([
      true,
      true,
      true,
      false,
      false,
      false,
      false,
      false,
      false,
    ]);
    expect(fitting('{run: {notes: 2, pace: {below: 150ms}}}', notes)).toEqual([
      true,
      true,
      true,
      false,
      true,
      true,
      false,
      false,
      false,
    ]);
    expect(fitting('{run: {notes: 4, pace: {below: 150ms}}}', notes)).not.toContain(true);
  });

  it('may end with the line, where the last note has its held time for a pace', () => {
    expect(fitting('{run: {notes: 3, pace: {below: 150ms}}}', notesAt(0, 100, 200))).toEqual([
      true,
      true,
      true,
    ]);
  });
});
