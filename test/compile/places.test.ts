import { describe, expect, it } from 'vitest';
import type { MeasuredLine } from '../../src/compile/index.js';
import { placesOf } from '../../src/compile/places.js';
import { beatAt } from '../../src/midi/clock/beat.js';
import { lineOfNotes } from '../support/line.js';

const notes = (...ticks: readonly number[]) => ticks.map((tick) => ({ tick, end: tick + 100, pitch: 60 }));

function placesIn(line: MeasuredLine) {
  const placeOf = placesOf(line);
  return line.onsets.map(({ index }) => placeOf(index));
}

describe('places of notes', () => {
  // common practice, no source: a downbeat that is played early is still the downbeat
  it('are the beats that they belong to, early or late', () => {
    const line = lineOfNotes(notes(0, 470, 968, 1440, 1905, 2400));
    expect(placesIn(line)).toEqual([
      { bar: 1, beat: 1 },
      { bar: 1, beat: 2 },
      { bar: 1, beat: 3 },
      { bar: 1, beat: 4 },
      { bar: 2, beat: 1 },
      { bar: 2, beat: 2 },
    ]);
  });

  it('are one for a chord that is spread over a bar line', () => {
    const chord = [1900, 1915, 1930].map((tick, index) => ({ tick, end: 2400, pitch: 60 + 4 * index }));
    const line = lineOfNotes([...notes(0, 480, 960, 1440), ...chord, ...notes(2400)]);
    expect(placesIn(line)[4]).toEqual({ bar: 2, beat: 1 });
    expect(placesIn(line)).toHaveLength(6);
  });

  it('are the nearest sixteenth or triplet where there is only a tick', () => {
    const { clock } = lineOfNotes([]);
    expect(beatAt(clock, 1919)).toEqual({ bar: 2, beat: 1 });
    expect(beatAt(clock, 1870)).toEqual({ bar: 2, beat: 1 });
    // A sixteenth is 120 ticks: this is nearer to the last one of the bar.
    expect(beatAt(clock, 1850)).toEqual({ bar: 1, beat: 4 });
    expect(beatAt(clock, 0)).toEqual({ bar: 1, beat: 1 });
  });
});
