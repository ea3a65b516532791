import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  openWav,
  requireStereo,
  type Slice,
  WavError,
  type WavTarget,
  wavBytes,
} from '../../../../src/sound/signal/index.js';
import { draws } from '../../../support/draws.js';
import { inPieces } from '../support.js';

async function blocksOf(bytes: Uint8Array, size = 1000): Promise<readonly number[][]> {
  const wav = await openWav(inPieces(bytes, size));
  const out: number[][] = Array.from({ length: wav.format.channels }, () => []);
  for await (const { channels } of wav.blocks())
    channels.forEach((samples, index) => {
      out[index]?.push(...samples);
    });
  return out;
}

async function slicesOf(bytes: Uint8Array, ranges: readonly { from: number; to: number }[], size: number) {
  const found: Slice[] = [];
  for await (const slice of (await openWav(inPieces(bytes, size))).slices(ranges)) found.push(slice);
  return found;
}

async function errorOf(bytes: Uint8Array): Promise<WavError> {
  try {
    requireStereo((await openWav(inPieces(bytes, 7))).format);
  } catch (error) {
    if (error instanceof WavError) return error;
    throw error;
  }
  throw new Error('it was read');
}

const stereo = [
  [0, 0.5, -0.5, 0.25],
  [-1, 0.125, -0.125, 0.75],
];

/** A chunk with its length, and a byte behind it where that is odd. */
function chunk(id: string, content: readonly number[], length = content.length): number[] {
  const size = [0, 8, 16, 24].map((shift) => (length >>> shift) & 255);
  return [...Buffer.from(id, 'latin1'), ...size, ...content, ...(content.length % 2 === 1 ? [0] : [])];
}

function riff(chunks: readonly number[], id = 'RIFF'): Uint8Array {
  return Uint8Array.from([...chunk(id, [], chunks.length + 4), ...Buffer.from('WAVE'), ...chunks]);
}

const u16 = (value: number) => [value & 255, value >>> 8];
const u32 = (value: number) => [...u16(value & 0xffff), ...u16(value >>> 16)];
const format = (tag: number, channels: number, rate: number, bits: number) => {
  const frame = (channels * bits) / 8;
  return [...u16(tag), ...u16(channels), ...u32(rate), ...u32(rate * frame), ...u16(frame), ...u16(bits)];
};
/** KSDATAFORMAT_SUBTYPE_PCM and _IEEE_FLOAT behind their first two bytes (from memory). */
const guid = (tag: number) => [...u16(tag), 0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];
const extensible = (tag: number, bits: number, valid: number) => [
  ...format(0xfffe, 2, 96_000, bits),
  ...u16(22),
  ...u16(valid),
  ...u32(3),
  ...guid(tag),
];

describe('reading what was written', () => {
  it.each([16, 24, 32] as const)('gives samples of %i bits back, in pieces of any length', async (bits) => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.tuple(
            fc.double({ min: -1, max: 0.999, noNaN: true }),
            fc.double({ min: -1, max: 0.999, noNaN: true }),
          ),
          {
            maxLength: 40,
          },
        ),
        fc.integer({ min: 1, max: 50 }),
        async (frames, size) => {
          const channels = [frames.map(([left]) => left), frames.map(([, right]) => right)];
          const target: Omit<WavTarget, 'channels'> = { sampleRate: 48_000, bits };
          const read = await blocksOf(wavBytes(target, channels), size);
          const half = bits === 32 ? 2 ** -24 : 2 ** -bits + 2 ** -24;
          channels.forEach((samples, channel) => {
            expect(read[channel]).toHaveLength(frames.length);
            samples.forEach((value, frame) => {
              expect(Math.abs((read[channel]?.[frame] ?? Number.NaN) - value)).toBeLessThanOrEqual(half);
            });
          });
        },
      ),
      { seed: 4, numRuns: 60 },
    );
  });

  it('holds whole numbers at full scale, and keeps floating point beyond it', async () => {
    const loud = [
      [1.5, -1.5],
      [1, -1],
    ];
    expect(await blocksOf(wavBytes({ sampleRate: 48_000, bits: 16 }, loud))).toEqual([
      [32_767 / 32_768, -1],
      [32_767 / 32_768, -1],
    ]);
    expect(await blocksOf(wavBytes({ sampleRate: 48_000, bits: 32 }, loud))).toEqual(loud);
  });

  it('reads three channels, which are written as extensible', async () => {
    const three = [...stereo, [0.5, 0.5, 0.5, 0.5]];
    expect(await blocksOf(wavBytes({ sampleRate: 192_000, bits: 24 }, three))).toEqual(three);
  });
});

describe('the kinds of WAV', () => {
  // Each sample by hand: −0.5 and 0.25.
  const kinds = [
    { name: '16 bits', fmt: format(1, 2, 44_100, 16), data: [0x00, 0xc0, 0x00, 0x20] },
    { name: '24 bits', fmt: format(1, 2, 44_100, 24), data: [0, 0, 0xc0, 0, 0, 0x20] },
    { name: '32 bits', fmt: format(1, 2, 192_000, 32), data: [0, 0, 0, 0xc0, 0, 0, 0, 0x20] },
    { name: 'float 32', fmt: format(3, 2, 44_100, 32), data: [0, 0, 0, 0xbf, 0, 0, 0x80, 0x3e] },
    {
      name: 'float 64',
      fmt: format(3, 2, 44_100, 64),
      data: [0, 0, 0, 0, 0, 0, 0xe0, 0xbf, 0, 0, 0, 0, 0, 0, 0xd0, 0x3f],
    },
    { name: 'extensible 24', fmt: extensible(1, 24, 20), data: [0, 0, 0xc0, 0, 0, 0x20] },
    { name: 'extensible float', fmt: extensible(3, 32, 32), data: [0, 0, 0, 0xbf, 0, 0, 0x80, 0x3e] },
  ];

  it.each(kinds)('reads $name', async ({ fmt, data }) => {
    expect(await blocksOf(riff([...chunk('fmt ', fmt), ...chunk('data', data)]))).toEqual([[-0.5], [0.25]]);
  });

  it('passes over other chunks, of odd length too, and what stands behind the sound', async () => {
    const bytes = riff([
      ...chunk('LIST', [1, 2, 3]),
      ...chunk('fmt ', format(1, 2, 48_000, 16)),
      ...chunk('cue ', [0]),
      ...chunk('data', [0, 0x40, 0, 0xc0]),
      ...chunk('LIST', [9, 9, 9, 9]),
    ]);
    expect(await blocksOf(bytes)).toEqual([[0.5], [-0.5]]);
  });

  it.each([0, 0xffffffff])('reads to the end where the length of the sound is %i', async (length) => {
    const bytes = riff([
      ...chunk('fmt ', format(1, 2, 48_000, 16)),
      ...chunk('data', [0, 0x40, 0, 0xc0], length),
    ]);
    const wav = await openWav(inPieces(bytes, 5));
    expect(wav.frames).toBeUndefined();
    expect(await blocksOf(bytes)).toEqual([[0.5], [-0.5]]);
  });

  it('takes the length of an RF64 file from its ds64 chunk', async () => {
    const ds64 = [...u32(0), ...u32(0), ...u32(4), ...u32(0), ...u32(0), ...u32(0), ...u32(0)];
    const fmt = chunk('fmt ', format(1, 2, 48_000, 16));
    const data = chunk('data', [0, 0x40, 0, 0xc0, 7, 7, 7, 7], 0xffffffff);
    expect(await blocksOf(riff([...chunk('ds64', ds64), ...fmt, ...data], 'RF64'))).toEqual([[0.5], [-0.5]]);
  });

  it('takes what is no number for silence', async () => {
    const data = chunk('data', [0, 0, 0xc0, 0x7f, 0, 0, 0x80, 0x7f]);
    expect(await blocksOf(riff([...chunk('fmt ', format(3, 2, 48_000, 32)), ...data]))).toEqual([[0], [0]]);
  });

  it('gives what is there of a sound that was cut short, whole frames only', async () => {
    const data = chunk('data', [0, 0x40, 0, 0xc0, 0, 0x40], 400);
    expect(await blocksOf(riff([...chunk('fmt ', format(1, 2, 48_000, 16)), ...data]))).toEqual([
      [0.5],
      [-0.5],
    ]);
  });
});

describe('pieces of a sound', () => {
  it('are those of the whole, wherever they lie and overlap, and however the bytes come', async () => {
    const frames = 300;
    const whole = [0, 1].map((channel) =>
      Float32Array.from({ length: frames }, (_, at) => (at * 2 + channel) / 1024),
    );
    const bytes = wavBytes({ sampleRate: 48_000, bits: 32 }, whole);
    const range = fc.tuple(fc.nat(350), fc.nat(80)).map(([from, length]) => ({ from, to: from + length }));
    await fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(range, { maxLength: 8, selector: ({ from }) => from }),
        fc.integer({ min: 1, max: 700 }),
        async (ranges, size) => {
          const sorted = ranges.toSorted((a, b) => a.from - b.from);
          const found = await slicesOf(bytes, sorted, size);
          expect(found.map(({ from }) => from).toSorted((a, b) => a - b)).toEqual(
            sorted.map(({ from }) => from),
          );
          for (const { from, channels } of found) {
            const to = sorted.find((one) => one.from === from)?.to ?? 0;
            expect(channels.map((samples) => [...samples])).toEqual(
              whole.map((samples) => [...samples.subarray(from, to)]),
            );
          }
        },
      ),
      { seed: 8, numRuns: draws(100) },
    );
  });

  it('ask for no more bytes than they need', async () => {
    let given = 0;
    const bytes = wavBytes({ sampleRate: 48_000, bits: 16 }, [
      new Float32Array(400_000),
      new Float32Array(400_000),
    ]);
    async function* counted() {
      for await (const piece of inPieces(bytes, 4096)) {
        given += piece.length;
        yield piece;
      }
    }
    const wav = await openWav(counted());
    for await (const _ of wav.slices([{ from: 100, to: 1000 }])) await wav.close();
    expect(given).toBeLessThan(200_000);
  });
});

describe('what is refused', () => {
  const whole = (fmt: number[]) => riff([...chunk('fmt ', fmt), ...chunk('data', [0, 0, 0, 0])]);
  it.each([
    ['an empty file', new Uint8Array(0), 'not-wav', 'empty'],
    ['another file', new TextEncoder().encode('MThd, and so on and on'), 'not-wav', 'does not begin'],
    ['big-endian RIFX', riff([], 'RIFX'), 'not-wav', 'does not begin'],
    ['no format', riff(chunk('data', [0, 0])), 'not-wav', 'before its format'],
    ['no sound', riff(chunk('fmt ', format(1, 2, 48_000, 16))), 'wav-truncated', 'no sound'],
    ['nothing at all', riff([]), 'wav-truncated', 'ends before its format'],
    ['a short format', whole([1, 0, 2, 0]), 'not-wav', '4 bytes'],
    ['mono', whole(format(1, 1, 48_000, 16)), 'wav-channels', 'mono'],
    ['six channels', whole(format(1, 6, 48_000, 16)), 'wav-channels', '6 channels'],
    ['8 bits', whole(format(1, 2, 48_000, 8)), 'wav-format', '8 bits'],
    ['compressed sound', whole(format(85, 2, 48_000, 16)), 'wav-format', 'format 85'],
    [
      'an unknown GUID',
      whole([...extensible(1, 16, 16).slice(0, 30), ...Array(10).fill(3)]),
      'wav-format',
      'kind',
    ],
    ['22,050 Hz', whole(format(1, 2, 22_050, 16)), 'wav-format', '22050'],
    ['384,000 Hz', whole(format(1, 2, 384_000, 16)), 'wav-format', '384000'],
    ['no channels', whole(format(1, 0, 48_000, 16)), 'not-wav', 'no channels'],
    [
      'frames of a wrong size',
      whole([...format(1, 2, 48_000, 16).slice(0, 12), 9, 0, 16, 0]),
      'not-wav',
      '9 bytes',
    ],
  ] as const)('%s', async (_, bytes, code, says) => {
    const error = await errorOf(bytes);
    expect(error.code).toBe(code);
    expect(error.message).toContain(says);
    expect(error.hint).not.toBe('');
  });

  it('never anything but a WavError, whatever the bytes', async () => {
    const start = [
      ...riff([...chunk('fmt ', format(1, 2, 48_000, 16)), ...chunk('data', [0, 0x40, 0, 0xc0])]),
    ];
    const damage = fc.array(fc.tuple(fc.nat(start.length - 1), fc.nat(255)), { maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(damage, fc.nat(start.length), async (changes, length) => {
        const bytes = Uint8Array.from(start).slice(0, length);
        for (const [at, value] of changes) if (at < length) bytes[at] = value;
        const problem = await blocksOf(bytes).then(
          () => undefined,
          (error: unknown) => error,
        );
        if (problem !== undefined) expect(problem).toBeInstanceOf(WavError);
      }),
      { seed: 3, numRuns: draws(300) },
    );
  });
});
