import { describe, expect, it } from 'vitest';
import { chordsOfStrokes } from '../../src/arrange/anticipate.js';
import { chordsOfSymbols } from '../../src/arrange/symbols.js';
import type { Stroke } from '../../src/arrange/types.js';
import { at, steady } from './clock.js';

const stroke = (bar: number, beat: number, beats = 0.4, velocity = 80): Stroke => {
  return { tick: at(bar, beat), endTick: at(bar, beat + beats), velocity };
};
const chords = (text: string) => chordsOfSymbols(text, steady).chords;
const ahead = (strokes: readonly Stroke[], text = '| C | F | G | C |') =>
  chordsOfStrokes(strokes, chords(text), steady).map((struck) => [struck.chord, struck.ahead]);

describe('chordsOfStrokes', () => {
  it('strikes the chord of the place, also late', () => {
    expect(ahead([stroke(1, 1), stroke(2, 1), stroke(2, 1.1), stroke(3, 4)])).toEqual([
      [0, null],
      [1, null],
      [1, null],
      [2, null],
    ]);
  });

  it('takes an early stroke for the chord that it was meant for', () => {
    // 48 ticks are 50 ms.
    expect(ahead([{ tick: at(2, 1) - 48, endTick: at(2, 2), velocity: 80 }])).toEqual([[1, 'early']]);
  });

  it('lets an off-beat that takes the place of the next beat go with what follows', () => {
    expect(ahead([stroke(1, 1), stroke(1, 4.5), stroke(2, 2)])).toEqual([
      [0, null],
      [1, 'anticipation'],
      [1, null],
    ]);
  });

  it('keeps a pickup before a stroke on the beat in its own chord', () => {
    expect(ahead([stroke(1, 1), stroke(1, 4.5), stroke(2, 1)])).toEqual([
      [0, null],
      [0, null],
      [1, null],
    ]);
  });

  it('takes a longer lead for an anticipation only where it is held over the change', () => {
    expect(ahead([stroke(1, 1), stroke(1, 4.25, 2), stroke(2, 3)])[1]).toEqual([1, 'anticipation']);
    expect(ahead([stroke(1, 1), stroke(1, 4.25, 0.3), stroke(2, 3)])[1]).toEqual([0, null]);
    expect(ahead([stroke(1, 1), stroke(1, 4, 2), stroke(2, 3)])[1]).toEqual([0, null]);
  });

  it('does not leave a chord that has this stroke alone', () => {
    expect(ahead([stroke(1, 1), stroke(1, 1.5)], '| C F . . . . . . |')).toEqual([
      [0, null],
      [1, null],
    ]);
    expect(ahead([stroke(1, 1)], '| C F . . . . . . |')).toEqual([[0, null]]);
  });
});
