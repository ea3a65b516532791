import { describe, expect, it } from 'vitest';
import { heardTogether } from '../../../src/music/harmony/broken.js';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { prelude } from './prelude.js';
import { beat, clockFor, pitchOf } from './support.js';

const clock = clockFor(4, 70);
const sixteenth = beat / 4;

/** Equal notes one behind the other, from a tick on. */
const row = (pitches: readonly number[], length: number, from = 0) =>
  pitches.map((pitch, index) => {
    const tick = from + index * length;
    return { tick, endTick: tick + length, pitch, velocity: 80, part: 0 };
  });

const heard = (pitches: readonly number[], length: number) =>
  heardTogether(row(pitches, length), clock).map(({ tick, endTick }) => [tick / beat, endTick / beat]);

describe('broken chords', () => {
  it('are heard through their half of the bar', () => {
    const alberti = [48, 55, 52, 55, 47, 55, 50, 53];
    expect(heard(alberti, beat / 2)).toEqual([...new Array(4).fill([0, 2]), ...new Array(4).fill([2, 4])]);
  });

  it('are heard through their beat, where each beat has a chord of its own', () => {
    const eachBeat = [48, 52, 55, 60, 50, 53, 57, 62];
    expect(heard(eachBeat, sixteenth)).toEqual([...new Array(4).fill([0, 1]), ...new Array(4).fill([1, 2])]);
  });

  it('are no scales, no slow leaps, and no few', () => {
    const asPlayed = (pitches: readonly number[], length: number) =>
      expect(heardTogether(row(pitches, length), clock)).toEqual(row(pitches, length));
    asPlayed([60, 62, 64, 65, 67, 65, 64, 62], sixteenth);
    asPlayed([48, 55, 52, 55, 48, 55, 52, 55], beat);
    asPlayed([48, 55, 52, 55], sixteenth);
  });

  it('have their sevenths named: the prelude in C major in equal sixteenths', () => {
    const notes = prelude.flatMap(([text], bar) => {
      const pitches = text.split(' ').map(pitchOf);
      const half = [0, 1, 2, 3, 4, 2, 3, 4].flatMap((at) => pitches[at] ?? []);
      return row([...half, ...half], sixteenth, bar * 4 * beat);
    });
    const found = harmonyOf(notes, clock, { per: 'found' });
    const names = prelude.map((_, bar) =>
      found
        .filter(({ tick, endTick }) => tick < (bar + 1) * 4 * beat && endTick > bar * 4 * beat)
        .map(({ chord }) => chord?.name)
        .join(' '),
    );
    const read = prelude.map(([, name], bar) => (name === '.' ? names[bar] : name));
    expect(names).toEqual(read);
    expect(found[0]?.key.name).toBe('C major');
  });
});
