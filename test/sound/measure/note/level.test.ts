import { describe, expect, it } from 'vitest';
import { lengthOf } from '../../../../src/sound/measure/note/length.js';
import { levelOf } from '../../../../src/sound/measure/note/level.js';
import { envelopeOf } from '../../../../src/sound/measure/note/onset.js';
import { loudnessMeter, meanPower, stereoPower } from '../../../../src/sound/signal/index.js';
import { addNoise, addTone, type Sound, silence } from '../synthetic.js';

const rate = 48_000;

function powerOf(sound: Sound, held: number, noise?: number) {
  const channels = silence(5, rate);
  addTone(channels, rate, { at: 0.5, held, pitch: 69 }, sound);
  if (noise !== undefined) addNoise(channels, noise, 3);
  return stereoPower(...channels, rate);
}

const noisePower = (level: number) => {
  const channels = silence(3, rate);
  addNoise(channels, level, 77);
  const power = meanPower(stereoPower(...channels, rate), 0.5, 3);
  return power ? power.left + power.right : 0;
};

describe('the level of a note', () => {
  it('that is held is its loudness by BS.1770', () => {
    const channels = silence(5, rate);
    addTone(channels, rate, { at: 0, held: 6, pitch: 69 }, {});
    const meter = loudnessMeter(rate, 2);
    meter.push(channels);
    expect(levelOf(powerOf({}, 3.5), 0.5, 3.5, 0)).toBeCloseTo(meter.integrated(), 1);
  });

  it('that is short is its greatest momentary loudness', () => {
    const channels = silence(5, rate);
    addTone(channels, rate, { at: 0.5, held: 1, pitch: 69 }, { decay: 0.2 });
    const meter = loudnessMeter(rate, 2);
    meter.push(channels);
    const found = levelOf(powerOf({ decay: 0.2 }, 1), 0.5, 1, 0) ?? Number.NaN;
    expect(found).toBeGreaterThanOrEqual(Math.max(...meter.momentary()) - 0.01);
    // EBU Tech 3341 looks each tenth of a second, this each hundredth.
    expect(found - Math.max(...meter.momentary())).toBeLessThan(0.5);
  });

  it('is right within 0.2 dB down to 6 dB above noise, and not told below', () => {
    const clean = levelOf(powerOf({ gain: 0.01 }, 3.5), 0.5, 3.5, 0) ?? Number.NaN;
    const heard: number[] = [];
    for (let noise = -70; noise < -30; noise += 4) {
      const found = levelOf(powerOf({ gain: 0.01 }, 3.5, noise), 0.5, 3.5, noisePower(noise));
      if (found === undefined) continue;
      heard.push(noise);
      expect(Math.abs(found - clean)).toBeLessThan(0.2);
    }
    expect(Math.max(...heard)).toBeGreaterThanOrEqual(-54);
    expect(Math.max(...heard)).toBeLessThan(-40);
  });
});

describe('the length of a note', () => {
  it('is that of its key where it is held', () => {
    const found = lengthOf(envelopeOf(powerOf({}, 1), 69, 0.5, 1));
    expect(Math.abs((found?.ms ?? 0) - 1027)).toBeLessThan(10);
    expect(found?.rings).toBe(false);
  });

  it('is the time to −20 dB where it dies away, and rings where that takes long', () => {
    // exp(−t/τ) is 20 dB down after 2.303 τ.
    const quick = lengthOf(envelopeOf(powerOf({ decay: 0.05, rise: 0 }, 1), 69, 0.5, 1));
    expect(Math.abs((quick?.ms ?? 0) - 115)).toBeLessThan(8);
    expect(quick?.rings).toBe(false);
    const slow = lengthOf(envelopeOf(powerOf({ decay: 0.3, rise: 0 }, 1), 69, 0.5, 1));
    expect(Math.abs((slow?.ms ?? 0) - 691)).toBeLessThan(20);
    expect(slow?.rings).toBe(true);
  });

  it('is not told where noise hides its end', () => {
    expect(lengthOf(envelopeOf(powerOf({}, 1, -40), 69, 0.5, 1))).toBeUndefined();
  });
});
