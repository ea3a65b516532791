import type { WavFormat } from './format.js';

/** Reads one sample; whole numbers become −1 … below 1. */
type SampleReader = (view: DataView, offset: number) => number;

const readers: Readonly<Record<string, SampleReader>> = {
  integer16: (view, offset) => view.getInt16(offset, true) / 0x8000,
  integer24: (view, offset) => (view.getUint16(offset, true) + view.getInt8(offset + 2) * 0x10000) / 0x800000,
  integer32: (view, offset) => view.getInt32(offset, true) / 0x80000000,
  float32: (view, offset) => view.getFloat32(offset, true),
  float64: (view, offset) => view.getFloat64(offset, true),
};

/** Turns whole frames of bytes into samples. What is no number (a damaged float) is silence. */
export interface Decoder {
  /**
   * @param bytes frames one after the other
   * @param frame the first frame that is wanted
   * @param count how many frames
   * @param into receives the samples of one channel, from `at` on
   */
  read(
    bytes: Uint8Array,
    frame: number,
    count: number,
    channel: number,
    into: Float32Array,
    at: number,
  ): void;
}

export function decoderOf({ encoding, bits, frameBytes }: WavFormat): Decoder {
  const sample = readers[`${encoding}${bits}`];
  if (!sample) throw new RangeError(`samples of ${bits} bits, ${encoding}`);
  return {
    read(bytes, frame, count, channel, into, at) {
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
      let offset = frame * frameBytes + (channel * bits) / 8;
      for (let index = 0; index < count; index++) {
        const value = sample(view, offset);
        into[at + index] = Number.isFinite(value) ? value : 0;
        offset += frameBytes;
      }
    },
  };
}
