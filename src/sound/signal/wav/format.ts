import { WavError } from './error.js';

/** How the samples of a WAV file are written. */
export interface WavFormat {
  /** Frames a second. */
  readonly sampleRate: number;
  readonly channels: number;
  readonly encoding: 'integer' | 'float';
  /** Bits that a sample takes in the file. */
  readonly bits: 16 | 24 | 32 | 64;
  /** Bytes that a frame takes, all channels together. */
  readonly frameBytes: number;
}

/** Format tags, and the GUID's end that makes a tag of it (Multiple Channel Audio Data and WAVE Files, from memory). */
const tags = { integer: 1, float: 3, extensible: 0xfffe } as const;
const guidEnd = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];

const rates = { least: 44_100, most: 192_000 } as const;

/**
 * Reads the content of a `fmt ` chunk, plain or extensible.
 *
 * @param offset where the content begins in the file; for errors
 * @throws WavError
 */
export function readFormat(content: Uint8Array, offset: number): WavFormat {
  if (content.length < 16)
    throw new WavError(
      'not-wav',
      offset,
      `its format chunk has ${content.length} bytes`,
      'a format chunk has at least 16 bytes: export the sound again',
    );
  const view = new DataView(content.buffer, content.byteOffset, content.length);
  const tag = view.getUint16(0, true);
  const encoding = encodingOf(tag === tags.extensible ? innerTag(content, view) : tag, offset);
  const channels = view.getUint16(2, true);
  const sampleRate = view.getUint32(4, true);
  const bits = bitsOf(view.getUint16(14, true), encoding, offset);
  if (channels === 0)
    throw new WavError('not-wav', offset + 2, 'it has no channels', 'export the sound again, in stereo');
  if (sampleRate < rates.least || sampleRate > rates.most)
    throw new WavError(
      'wav-format',
      offset + 4,
      `it has ${sampleRate} samples a second`,
      'export it with 44,100 to 192,000',
    );
  const frameBytes = (channels * bits) / 8;
  if (view.getUint16(12, true) !== frameBytes)
    throw new WavError(
      'not-wav',
      offset + 12,
      `a frame is said to take ${view.getUint16(12, true)} bytes, but ${channels} samples of ${bits} bits take ${frameBytes}`,
      'export the sound again, as plain WAV',
    );
  return { sampleRate, channels, encoding, bits, frameBytes };
}

/** The tag inside an extensible format; undefined where it has a GUID of another kind. */
function innerTag(content: Uint8Array, view: DataView): number | undefined {
  const isTag = content.length >= 40 && guidEnd.every((byte, index) => content[26 + index] === byte);
  return isTag ? view.getUint16(24, true) : undefined;
}

function encodingOf(tag: number | undefined, offset: number): WavFormat['encoding'] {
  if (tag === tags.integer) return 'integer';
  if (tag === tags.float) return 'float';
  throw new WavError(
    'wav-format',
    offset,
    `its sound is of a kind that is not read${tag === undefined ? '' : ` (format ${tag})`}`,
    'export it as PCM of 16, 24 or 32 bits, or as floating point of 32 bits',
  );
}

function bitsOf(bits: number, encoding: WavFormat['encoding'], offset: number): WavFormat['bits'] {
  if (encoding === 'integer' && (bits === 16 || bits === 24 || bits === 32)) return bits;
  if (encoding === 'float' && (bits === 32 || bits === 64)) return bits;
  throw new WavError(
    'wav-format',
    offset + 14,
    `its samples have ${bits} bits, ${encoding === 'float' ? 'floating point' : 'whole numbers'}`,
    'export it with 16, 24 or 32 bits, or as floating point of 32 bits',
  );
}
