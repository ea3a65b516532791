import { describe, expect, it } from 'vitest';
import { faintEnder, faintest } from '../../../../src/sound/hear/synth/faint.js';
import { testBank } from '../support/bank.js';
import { levelOf, part, rate, rendered } from '../support/render.js';

describe('faint voices', () => {
  it('are ended at −80 dB of their release, in the library as it is installed', async () => {
    // generator 38, releaseVolEnv: 2400 timecents are 4 s to −100 dB (SoundFont 2.04, 8.1.2)
    const notes = [{ onsetMs: 0, endMs: 1000, pitch: 69, velocity: 127 }];
    const { left } = await rendered([part({ notes })], {}, testBank({ generators: [[38, 2400]] }));
    const seconds = left.length / rate;
    // from full level it takes 0.8 of the time; the bank's sound begins softer than full
    expect(seconds).toBeGreaterThan(1 + 4 * 0.6);
    expect(seconds).toBeLessThan(1 + 4 * 0.82);
    expect(levelOf(left, 1000 * seconds - 10, 1000 * seconds)).toBeLessThan(-80);
    expect(levelOf(left, 1000 * seconds - 10, 1000 * seconds)).toBeGreaterThan(-105);
  });

  it('go on where they are held, or loud enough, or the library is another', () => {
    const voice = (isInRelease: boolean, outputGain: number) => ({
      isActive: true,
      isInRelease,
      volEnv: { outputGain },
    });
    const voices = [voice(false, 0), voice(true, 2 * faintest), voice(true, faintest / 2)];
    faintEnder({ synthCore: { voices } })();
    expect(voices.map(({ isActive }) => isActive)).toEqual([true, true, false]);
    for (const other of [
      {},
      { synthCore: 1 },
      { synthCore: { voices: [] } },
      { synthCore: { voices: [{}] } },
    ])
      expect(faintEnder(other)()).toBeUndefined();
  });
});
