import type { ProbePlan, ProbeSlot } from '../../../src/sound/measure/index.js';
import { clickSamples } from '../../../src/sound/measure/plan/click.js';
import { wavBytes } from '../../../src/sound/signal/index.js';
import { inPieces, noiseSource } from '../signal/support.js';

/** How an invented sampler plays a note. */
export interface Sound {
  /** From note-on until the attack begins. Unit: seconds. */
  readonly delay?: number;
  /** The attack: amplitude rises by a straight line. Unit: seconds. */
  readonly rise?: number;
  /** The amplitude falls to 1/e in so many seconds; absent where it is held. */
  readonly decay?: number;
  /** Peak of the fundamental. */
  readonly gain?: number;
  /** Seat by the pan law of RP-036. */
  readonly seat?: number;
  /** Of harmonics 1, 2, 3 … against the fundamental. */
  readonly harmonics?: readonly number[];
}

export interface BounceOptions {
  readonly sampleRate?: number;
  /** When bar 1 begins. Unit: seconds. */
  readonly start?: number;
  /** Seconds of the bounce for one of the plan. */
  readonly speed?: number;
  /** Of both channels. Unit: dB of full scale, RMS; absent for none. */
  readonly noise?: number;
  readonly clicks?: 'both' | 'start' | 'none';
  /** The bounce is cut here. Unit: seconds of the plan. */
  readonly until?: number;
}

const release = 0.03;

/** Two channels, both silent. */
export function silence(seconds: number, sampleRate: number): readonly [Float32Array, Float32Array] {
  const length = Math.round(seconds * sampleRate);
  return [new Float32Array(length), new Float32Array(length)];
}

/** Adds a tone to two channels. Times in seconds of the sound. */
export function addTone(
  channels: readonly [Float32Array, Float32Array],
  sampleRate: number,
  note: { readonly at: number; readonly held: number; readonly pitch: number },
  { delay = 0, rise = 0.02, decay, gain = 0.1, seat = 0, harmonics = [1, 0.6, 0.4, 0.3, 0.2] }: Sound,
): void {
  const begin = note.at + delay;
  const end = Math.max(begin, note.at + note.held);
  const angle = (Math.PI * (seat + 1)) / 4;
  const [left, right] = [gain * Math.cos(angle), gain * Math.sin(angle)];
  const turn = 2 * Math.PI * 440 * 2 ** ((note.pitch - 69) / 12);
  const last = Math.min(channels[0].length, Math.ceil((end + release) * sampleRate));
  for (let at = Math.max(0, Math.ceil(begin * sampleRate)); at < last; at++) {
    const time = at / sampleRate - begin;
    const up = rise > 0 ? Math.min(1, time / rise) : 1;
    const down = decay === undefined ? 1 : Math.exp(-time / decay);
    const off = Math.max(0, Math.min(1, 1 - (time + begin - end) / release));
    const amplitude = up * down * off;
    // sin((k + 1)x) = 2 cos(x) sin(kx) − sin((k − 1)x)
    const twice = 2 * Math.cos(turn * time);
    let [before, sine, value] = [0, Math.sin(turn * time), 0];
    for (const share of harmonics) {
      value += share * sine;
      [before, sine] = [sine, twice * sine - before];
    }
    channels[0][at] = (channels[0][at] ?? 0) + left * amplitude * value;
    channels[1][at] = (channels[1][at] ?? 0) + right * amplitude * value;
  }
}

export function addNoise(channels: readonly Float32Array[], level: number, seed = 1): void {
  const amount = 10 ** (level / 20) * Math.sqrt(3);
  channels.forEach((samples, channel) => {
    const next = noiseSource(seed + 1000 * channel);
    for (let at = 0; at < samples.length; at++) samples[at] = (samples[at] ?? 0) + amount * next();
  });
}

/** What an invented sampler makes of a plan, as a WAV file of 24 bits. */
export function bounceOf(
  plan: ProbePlan,
  voice: (slot: ProbeSlot, index: number) => Sound | undefined,
  {
    sampleRate = 44_100,
    start = 0.37,
    speed = 1,
    noise,
    clicks = 'both',
    until = plan.seconds,
  }: BounceOptions = {},
): Uint8Array {
  const time = (planTime: number) => start + speed * planTime;
  const channels = silence(time(until), sampleRate);
  for (const slot of plan.slots)
    slot.notes.forEach((note, index) => {
      const sound = voice(slot, index);
      if (sound)
        addTone(
          channels,
          sampleRate,
          { at: time(note.at), held: speed * note.held, pitch: note.pitch },
          sound,
        );
    });
  const click = clickSamples(sampleRate * 8);
  const middle = (click.length - 1) / 2;
  const times =
    clicks === 'none' ? [] : [...plan.clicks.start, ...(clicks === 'both' ? plan.clicks.end : [])];
  for (const at of times.map((one) => time(one) * sampleRate))
    for (let index = Math.ceil(at - middle / 8); index <= at + middle / 8; index++)
      for (const samples of channels)
        if (index < samples.length)
          samples[index] = (samples[index] ?? 0) + (click[Math.round((index - at) * 8) + middle] ?? 0);
  if (noise !== undefined) addNoise(channels, noise);
  return wavBytes({ sampleRate, bits: 24 }, channels);
}

/** Opens bytes as often as is asked for. */
export const opening = (bytes: Uint8Array) => () => inPieces(bytes, 1 << 16);
