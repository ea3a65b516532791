import { describe, expect, it } from 'vitest';
import { joinedOnset } from '../../../../src/sound/measure/note/joined.js';
import { envelopeOf, onsetOf } from '../../../../src/sound/measure/note/onset.js';
import { stereoPower } from '../../../../src/sound/signal/index.js';
import { some } from '../../../support/draws.js';
import { addTone, type Sound, silence } from '../synthetic.js';

const rate = 48_000;
const pairs = [
  [48, 55],
  [55, 48],
  [60, 67],
  [67, 60],
  [76, 83],
  [83, 76],
] as const;

function pair(pitches: readonly [number, number], first: Sound, second: Sound) {
  const channels = silence(4, rate);
  addTone(channels, rate, { at: 0.5, held: 1.54, pitch: pitches[0] }, first);
  addTone(channels, rate, { at: 2, held: 1.7, pitch: pitches[1] }, second);
  return joinedOnset(channels, rate, pitches, 2);
}

/** The same note alone, by the method for notes that stand alone. */
function alone(pitch: number, sound: Sound) {
  const channels = silence(4, rate);
  addTone(channels, rate, { at: 2, held: 1.7, pitch }, sound);
  return onsetOf(envelopeOf(stereoPower(...channels, rate), pitch, 2, 1.7));
}

describe('the onset of a joined note', () => {
  it.each(some(pairs))(
    '%i to %i is found within 10 ms of the note alone, while the first still sounds',
    (...pitches) => {
      for (const delay of [0, 0.03, 0.12])
        for (const rise of [0.02, 0.1]) {
          const found = pair(pitches, {}, { delay, rise })?.at ?? Number.NaN;
          expect(Math.abs(found - (alone(pitches[1], { delay, rise })?.at ?? Number.NaN))).toBeLessThan(10);
        }
    },
  );

  it('is found under a first note that is three times as loud', () => {
    const found = pair([60, 67], { gain: 0.3 }, { delay: 0.08, gain: 0.1 })?.at ?? Number.NaN;
    expect(Math.abs(found - (alone(67, { delay: 0.08 })?.at ?? Number.NaN))).toBeLessThan(10);
  });

  it('is not told where no second note comes', () => {
    expect(pair([60, 67], {}, { gain: 0 })).toBeUndefined();
  });
});
