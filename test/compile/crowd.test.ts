import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile } from '../../src/compile/index.js';
import { asPlayed } from '../../src/timing/options.js';
import { some } from '../support/draws.js';
import { readWhole } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

/** Absurd, but a file from elsewhere may hold it: so many notes on one tick. No step may be quadratic in them. */
const crowd = Array.from({ length: 40_000 }, (_, index) => ({
  tick: 480,
  end: 580,
  pitch: 53 + (index % 24),
}));
const song = songOf([trackOf(crowd)]);
const timing = {
  ...asPlayed,
  compensate: true,
  joins: true,
  pull: 0.6,
  roll: { sdMs: 18, order: 'unordered' },
  loosenMs: 8,
} as const;

describe('a crowd of notes on one tick', () => {
  // Between them: chords by their top note and each for itself, keys and channels.
  for (const [name, how, options] of some([
    ['saltmarsh-horns', 'as it was played', undefined],
    ['gull-chapel-choir', 'as it was played', undefined],
    ['gull-chapel-choir', 'with timing options', timing],
  ] as const))
    it(`is compiled with ${name} ${how}`, () => {
      const map = readWhole(readFileSync(`maps/${name}.yaml`, 'utf8'));
      const job = {
        part: { track: 1, trackName: '', channel: 0 },
        map,
        ...(options ? { timing: options } : {}),
      };
      const { value } = compile(song, [job]);
      expect(value?.parts[0]?.decided).toHaveLength(crowd.length);
    });
});
