import { describe, expect, it } from 'vitest';
import { fitsWav, type SampleFormat, wavSink } from '../../../src/sound/hear/index.js';

async function written(format: SampleFormat, left: number[], right: number[]): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  const sink = wavSink((bytes) => {
    chunks.push(bytes);
  });
  await sink.begin({ sampleRate: 48_000, format, frames: left.length });
  await sink.write({ left: Float32Array.from(left), right: Float32Array.from(right) });
  await sink.end();
  return Buffer.concat(chunks);
}

describe('wavSink', () => {
  it('writes PCM as RIFF WAVE has it (from memory)', async () => {
    const bytes = await written('16', [0, 0.5, -1], [1, -0.5, 0]);
    expect(bytes.toString('latin1', 0, 4) + bytes.toString('latin1', 8, 16)).toBe('RIFFWAVEfmt ');
    expect(bytes.readUInt32LE(4)).toBe(bytes.length - 8);
    expect([20, 22, 32, 34].map((at) => bytes.readUInt16LE(at))).toEqual([1, 2, 4, 16]);
    expect(bytes.readUInt32LE(24)).toBe(48_000);
    expect(bytes.readUInt32LE(28)).toBe(192_000);
    expect(bytes.readUInt32LE(40)).toBe(12);
    expect([0, 1, 2, 3, 4, 5].map((index) => bytes.readInt16LE(44 + 2 * index))).toEqual([
      ...[0, 32_767, 16_384, -16_384, -32_768, 0],
    ]);
  });

  it('writes 24 bits and floats', async () => {
    const wide = await written('24', [0.5, -0.25], [0, -1]);
    expect([0, 1, 2, 3].map((index) => wide.readIntLE(44 + 3 * index, 3))).toEqual([
      ...[4_194_304, 0, -2_097_152, -8_388_608],
    ]);
    const float = await written('float', [0.1], [-1.5]);
    expect(float.readUInt16LE(20)).toBe(3);
    expect(float.toString('latin1', 38, 42)).toBe('fact');
    expect(float.readFloatLE(58)).toBeCloseTo(0.1, 7);
    expect(float.readFloatLE(62)).toBe(-1.5);
  });

  it('knows what no longer fits into 32 bits', () => {
    expect(fitsWav(2 ** 29, 'float')).toBe(false);
    expect(fitsWav(2 ** 28, '16')).toBe(true);
  });
});
