import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { probePlan, probeSong } from '../../../src/sound/measure/index.js';
import { loudnessMeter, openWav, wavBytes } from '../../../src/sound/signal/index.js';
import { eight } from './library.js';
import { mix } from './mix.js';
import { reading, render, samplesOf } from './render.js';

// ffmpeg reads what is written here, writes what is read here, and measures the same files.
const folder = mkdtempSync(join(tmpdir(), 'keyslip-ebur128-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let played: string;
beforeAll(async () => {
  const dry = render(folder, 'played', probeSong(probePlan(eight, { quick: true }), eight));
  played = await mix(join(folder, 'noisy.wav'), [{ file: dry, gain: 2 }], { noise: -66 });
}, 600_000);

function ffmpeg(...options: readonly string[]): string {
  return execFileSync('nice', ['ffmpeg', '-v', 'error', '-y', ...options], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
}

/** Momentary loudness at each tenth of a second, and the gated one in the end, by ffmpeg's ebur128. */
function byFfmpeg(file: string): { readonly momentary: readonly number[]; readonly integrated: number } {
  const text = ffmpeg('-i', file, '-af', 'ebur128=metadata=1,ametadata=print:file=-', '-f', 'null', '-');
  const values = (key: string) =>
    [...text.matchAll(new RegExp(`lavfi\\.r128\\.${key}=(\\S+)`, 'gu'))].map((match) => Number(match[1]));
  return { momentary: values('M'), integrated: values('I').at(-1) ?? Number.NaN };
}

async function byUs(file: string) {
  const wav = await openWav(reading(file)());
  const meter = loudnessMeter(wav.format.sampleRate, wav.format.channels);
  for await (const { channels } of wav.blocks()) meter.push(channels);
  return { format: wav.format, momentary: meter.momentary(), integrated: meter.integrated() };
}

// Written by ffmpeg, at other rates than the sound was made at.
const kinds = [
  { rate: 44_100, codec: 'pcm_s16le', bits: 16 },
  { rate: 48_000, codec: 'pcm_s24le', bits: 24 },
  { rate: 96_000, codec: 'pcm_s32le', bits: 32 },
  { rate: 192_000, codec: 'pcm_f32le', bits: 32 },
  { rate: 88_200, codec: 'pcm_f64le', bits: 64 },
];

describe('loudness by ITU-R BS.1770', () => {
  it.each(kinds)('is that of ffmpeg within 0.1 dB: $codec at $rate Hz', async ({ rate, codec, bits }) => {
    const file = join(folder, `${rate}.wav`);
    ffmpeg('-i', played, '-t', '60', '-ar', `${rate}`, '-c:a', codec, file);
    const [theirs, ours] = [byFfmpeg(file), await byUs(file)];
    expect(ours.format).toMatchObject({ sampleRate: rate, bits, channels: 2 });
    expect(Math.abs(ours.integrated - theirs.integrated)).toBeLessThan(0.1);
    // Theirs begins with the first tenth of a second, ours with the first whole 0.4 s.
    const worst = ours.momentary.reduce((most, value, index) => {
      const other = theirs.momentary[index + 3];
      return other === undefined || other < -110 ? most : Math.max(most, Math.abs(value - other));
    }, 0);
    console.log(
      `${codec} ${rate}: integrated ${(ours.integrated - theirs.integrated).toFixed(4)} dB, momentary ${worst.toFixed(4)} dB`,
    );
    expect(ours.momentary.length).toBeGreaterThan(500);
    expect(worst).toBeLessThan(0.1);
  });

  it.each([1, 2, 6])('ffmpeg reads %i channels that were written here', async (count) => {
    const [left = new Float32Array(0)] = await samplesOf(played);
    const part = left.subarray(300_000, 310_000);
    const channels = Array.from({ length: count }, (_, index) => part.map((value) => value / (index + 1)));
    for (const bits of [16, 24, 32] as const) {
      const [ours, theirs] = [join(folder, 'ours.wav'), join(folder, 'theirs.wav')];
      writeFileSync(ours, wavBytes({ sampleRate: 48_000, bits }, channels));
      ffmpeg('-i', ours, '-c:a', 'pcm_f64le', theirs);
      const read = await samplesOf(theirs);
      expect(read).toHaveLength(count);
      read.forEach((samples, channel) => {
        const worst = samples.reduce(
          (most, value, at) => Math.max(most, Math.abs(value - (channels[channel]?.[at] ?? 9))),
          0,
        );
        expect(samples).toHaveLength(part.length);
        expect(worst).toBeLessThan(bits === 16 ? 2 ** -15 : 2 ** -23);
      });
    }
  });
});
