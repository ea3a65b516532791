import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { envelopeOf, isSilent, onsetOf, windowOf } from '../../../../src/sound/measure/note/onset.js';
import { stereoPower } from '../../../../src/sound/signal/index.js';
import { draws } from '../../../support/draws.js';
import { addNoise, addTone, type Sound, silence } from '../synthetic.js';

const rate = 48_000;

function envelope(
  sound: Sound,
  { pitch = 60, noise, sampleRate = rate }: { pitch?: number; noise?: number; sampleRate?: number } = {},
) {
  const channels = silence(3, sampleRate);
  addTone(channels, sampleRate, { at: 0.5, held: 2, pitch }, sound);
  if (noise !== undefined) addNoise(channels, noise);
  return envelopeOf(stereoPower(...channels, sampleRate), pitch, 0.5, 2);
}

const onset = (...given: Parameters<typeof envelope>) => onsetOf(envelope(...given));

describe('the onset of a note', () => {
  it('of a long straight rise lies where its amplitude passes −15, −12 and −6 dB', () => {
    // A rise of 400 ms passes them after 400 · 10^(dB/20) ms; the window of two periods is short beside it.
    const found = onset({ rise: 0.4, harmonics: [1] }, { pitch: 84 });
    const expected = [-15, -12, -6].map((level) => 400 * 10 ** (level / 20));
    expect(Math.abs((found?.early ?? 0) - (expected[0] ?? 0))).toBeLessThan(1.5);
    expect(Math.abs((found?.at ?? 0) - (expected[1] ?? 0))).toBeLessThan(1.5);
    expect(Math.abs((found?.late ?? 0) - (expected[2] ?? 0))).toBeLessThan(1.5);
  });

  it('of a sudden sound lies at its beginning, within half of the window', () => {
    for (const pitch of [40, 60, 80]) {
      const found = onset({ rise: 0 }, { pitch });
      expect(Math.abs(found?.at ?? 99)).toBeLessThan(500 * windowOf(pitch));
    }
  });

  it('follows a delay to a fifth of a millisecond, at every rate, however loud the note is', () => {
    const delays = fc.double({ min: 0, max: 0.3, noNaN: true });
    const options = { seed: 5, numRuns: draws(25) };
    fc.assert(
      fc.property(
        delays,
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        fc.constantFrom(44_100, 48_000, 96_000),
        (delay, gain, sampleRate) => {
          const still = onset({ rise: 0.05, gain }, { sampleRate })?.at ?? Number.NaN;
          const late = onset({ rise: 0.05, gain, delay }, { sampleRate })?.at ?? Number.NaN;
          expect(Math.abs(late - still - 1000 * delay)).toBeLessThan(0.2);
        },
      ),
      options,
    );
  });

  it('moves by no more than 2 ms under noise 40 dB below the note', () => {
    const [clean, noisy] = [onset({ rise: 0.1 }), onset({ rise: 0.1 }, { noise: -63 })];
    expect(Math.abs((clean?.at ?? 0) - (noisy?.at ?? 99))).toBeLessThan(2);
  });

  it('of a swell is that of its beginning, not of its end', () => {
    const channels = silence(4, rate);
    // A soft tone from the note-on, to which a loud one grows much later.
    addTone(channels, rate, { at: 0.5, held: 3, pitch: 60 }, { rise: 0.05, gain: 0.02 });
    addTone(channels, rate, { at: 0.5, held: 3, pitch: 60 }, { delay: 1.5, rise: 0.5, gain: 0.2 });
    const found = onsetOf(envelopeOf(stereoPower(...channels, rate), 60, 0.5, 3));
    expect(found?.at).toBeLessThan(60);
  });

  it('is not told of a note less than 20 dB above what was before it', () => {
    // The tone has −23 LUFS or so, the noise 5 dB below.
    expect(onset({}, { noise: -32 })).toBeUndefined();
    expect(onset({}, { noise: -60 })).toBeDefined();
  });

  it('nothing is heard in silence and in noise alone, and a note is', () => {
    expect(isSilent(envelope({ gain: 0 }))).toBe(true);
    expect(isSilent(envelope({ gain: 0 }, { noise: -50 }))).toBe(true);
    expect(isSilent(envelope({ gain: 0.01 }))).toBe(false);
    expect(isSilent(envelope({ gain: 0.05 }, { noise: -50 }))).toBe(false);
  });

  it('is smoothed over two periods, but no less than 10 and no more than 40 ms', () => {
    expect(windowOf(69)).toBe(0.01);
    expect(windowOf(45)).toBeCloseTo(2 / 110, 9);
    expect(windowOf(21)).toBe(0.04);
  });
});
