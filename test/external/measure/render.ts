import { execFileSync } from 'node:child_process';
import { createReadStream, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWav, wavBytes } from '../../../src/sound/signal/index.js';
import { noiseSource } from '../../sound/signal/support.js';

export const soundFont = '/usr/share/sounds/sf2/FluidR3_GM.sf2';
export const rate = 48_000;

/** Reads a file from its beginning, each time that it is asked for. */
export const reading = (file: string) => () => createReadStream(file, { highWaterMark: 1 << 18 });

/** Plays a MIDI file with Debian's fluidsynth, dry, to a stereo float WAV. */
export function render(folder: string, name: string, midi: Uint8Array): string {
  const [source, target] = [join(folder, `${name}.mid`), join(folder, `${name}.wav`)];
  writeFileSync(source, midi);
  const options = ['-ni', '-F', target, '-O', 'float', '-T', 'wav', '-r', `${rate}`, '-g', '0.5'];
  execFileSync('nice', ['fluidsynth', ...options, '-R', '0', '-C', '0', soundFont, source], {
    stdio: 'ignore',
  });
  return target;
}

/**
 * A hall: noise that decays by 60 dB in `seconds`, other noise in each channel, whose energy is `level` dB of the direct
 * sound's; put on by ffmpeg's convolution. Only the room is written, without the direct sound.
 */
export async function roomOf(folder: string, dry: string, seconds: number, level: number): Promise<string> {
  const length = Math.round(1.2 * seconds * rate);
  const channels = [1, 2].map((seed) => {
    const next = noiseSource(seed);
    const shape = Float64Array.from({ length }, (_, at) => next() * 10 ** ((-3 * at) / (seconds * rate)));
    const energy = shape.reduce((sum, value) => sum + value * value, 0);
    return shape.map((value) => value * Math.sqrt(10 ** (level / 10) / energy));
  });
  const [response, wet] = [join(folder, 'hall.wav'), `${dry}.room.wav`];
  writeFileSync(response, wavBytes({ sampleRate: rate, bits: 32 }, channels));
  // What ffmpeg makes of an impulse tells by how much it scales: not all its versions take the response as it is.
  const impulse = join(folder, 'impulse.wav');
  const one = Float32Array.from({ length: rate }, (_, at) => (at === 0 ? 0.5 : 0));
  writeFileSync(impulse, wavBytes({ sampleRate: rate, bits: 32 }, [one, one]));
  convolve(impulse, response, 1, wet);
  const peak = (samples: Float32Array | Float64Array | undefined) =>
    Math.max(...(samples ?? []).map(Math.abs));
  const scale =
    peak((await samplesOf(wet))[0]?.slice(0, 20_000)) / (0.5 * peak(channels[0]?.slice(0, 20_000)));
  convolve(dry, response, 1 / scale, wet);
  return wet;
}

function convolve(dry: string, response: string, gain: number, wet: string): void {
  const filter = `[0:a][1:a]afir=gtype=none:irfmt=input:maxir=10:wet=${gain}`;
  const rest = ['-filter_complex', filter, '-c:a', 'pcm_f32le', wet];
  execFileSync('nice', ['ffmpeg', '-v', 'error', '-y', '-i', dry, '-i', response, ...rest]);
}

/** Both channels of a whole file. */
export async function samplesOf(file: string): Promise<readonly Float32Array[]> {
  const wav = await openWav(reading(file)());
  const length = wav.frames ?? 0;
  const channels = Array.from({ length: wav.format.channels }, () => new Float32Array(length));
  for await (const { from, channels: parts } of wav.blocks())
    parts.forEach((samples, index) => {
      channels[index]?.set(samples, from);
    });
  return channels;
}
