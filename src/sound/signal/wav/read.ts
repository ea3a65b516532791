import { byteReader } from './bytes.js';
import { decoderOf } from './decode.js';
import { WavError } from './error.js';
import { type FrameRange, fillingOf, type Slice } from './filling.js';
import type { WavFormat } from './format.js';
import { readHeader } from './header.js';

export type { FrameRange, Slice } from './filling.js';

/** A sound file whose header was read, at the beginning of its samples. It can be read once. */
export interface Wav {
  readonly format: WavFormat;
  /** Frames that the header promises; undefined where it leaves them open. */
  readonly frames: number | undefined;
  /**
   * The asked-for pieces, each as soon as it is whole. What lies between them is passed over, and no more is held than
   * the pieces that are being filled. A piece that reaches past the end is cut there, or empty.
   *
   * @param ranges by rising `from`; they may overlap
   * @param onFrame told now and then how many frames were passed
   */
  slices(ranges: readonly FrameRange[], onFrame?: (frame: number) => void): AsyncGenerator<Slice>;
  /** All samples, in pieces of some thousand frames. */
  blocks(): AsyncGenerator<Slice>;
  close(): Promise<void>;
}

/** How much is decoded at a time. Unit: bytes. */
const blockBytes = 1 << 16;

/**
 * Opens a WAV file: RIFF, RF64 or BW64, plain or extensible, of 16, 24 or 32 bits or floating point of 32 or 64, with
 * 44,100 to 192,000 samples a second.
 *
 * @throws WavError
 */
export async function openWav(pieces: AsyncIterable<Uint8Array>): Promise<Wav> {
  const reader = byteReader(pieces);
  const { format, frames } = await readHeader(reader).catch(async (error: unknown) => {
    await reader.close();
    throw error;
  });
  const decoder = decoderOf(format);
  const { frameBytes, channels } = format;

  /** Whole frames as bytes, each block with the frame that it begins at. */
  async function* frameBlocks(): AsyncGenerator<{ readonly bytes: Uint8Array; readonly from: number }> {
    const most = Math.max(1, Math.floor(blockBytes / frameBytes));
    for (let from = 0; frames === undefined || from < frames; ) {
      const wanted = frames === undefined ? most : Math.min(most, frames - from);
      const bytes = await reader.take(wanted * frameBytes);
      const count = Math.floor(bytes.length / frameBytes);
      if (count === 0) return;
      yield { bytes, from };
      from += count;
    }
  }
  const empty = (count: number) => Array.from({ length: channels }, () => new Float32Array(count));

  return {
    format,
    frames,
    close: () => reader.close(),
    async *blocks() {
      for await (const { bytes, from } of frameBlocks()) {
        const count = Math.floor(bytes.length / frameBytes);
        const into = empty(count);
        into.forEach((samples, channel) => {
          decoder.read(bytes, 0, count, channel, samples, 0);
        });
        yield { from, channels: into };
      }
    },
    async *slices(ranges, onFrame) {
      const filling = fillingOf(ranges, channels);
      for await (const { bytes, from } of frameBlocks()) {
        if (filling.isDone()) return;
        const end = from + Math.floor(bytes.length / frameBytes);
        for (const { range, into } of filling.open(end)) {
          const first = Math.max(range.from, from);
          const count = Math.min(range.to, end) - first;
          into.forEach((samples, channel) => {
            decoder.read(bytes, first - from, Math.max(0, count), channel, samples, first - range.from);
          });
        }
        onFrame?.(end);
        yield* filling.whole(end);
      }
      yield* filling.rest();
    },
  };
}

/**
 * Refuses what is not stereo.
 *
 * @throws WavError
 */
export function requireStereo({ channels }: WavFormat): void {
  if (channels === 2) return;
  const message = channels === 1 ? 'it is mono' : `it has ${channels} channels`;
  const hint =
    channels === 1
      ? 'bounce in stereo: where a recording sits and how wide it is lies in the difference of two channels, and a mix to one loses level'
      : 'bounce two channels, left and right';
  throw new WavError('wav-channels', 22, message, hint);
}
