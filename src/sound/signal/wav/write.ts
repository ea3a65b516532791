/** How a sound is to be written. */
export interface WavTarget {
  readonly sampleRate: number;
  readonly channels: number;
  /** 16 and 24 are whole numbers, 32 is floating point. */
  readonly bits: 16 | 24 | 32;
}

/** Turns samples into the bytes of a WAV file, piece by piece. */
export interface WavWriter {
  /** The header; first in the file. */
  readonly header: Uint8Array;
  /**
   * The bytes of some frames. Samples beyond −1 … 1 are held there in whole numbers, and kept in floating point.
   *
   * @param channels each channel's samples, all of one length
   */
  frames(channels: readonly ArrayLike<number>[]): Uint8Array;
  /** What stands behind the last frame: a byte, where their bytes are odd in number. */
  readonly end: Uint8Array;
}

/** RIFF counts bytes in 32 bits. */
const largest = 0xffffffff;

/**
 * A writer for a sound whose length is known. Two channels or fewer are written as plain WAV, more as extensible without
 * a loudspeaker assigned. Whole numbers are rounded, not dithered.
 *
 * @param frames how many frames will be written
 * @throws RangeError for a sound of more than 4 GB
 */
export function wavWriter({ sampleRate, channels, bits }: WavTarget, frames: number): WavWriter {
  const frameBytes = (channels * bits) / 8;
  const dataBytes = frames * frameBytes;
  const isExtensible = channels > 2;
  const formatBytes = isExtensible ? 40 : 16;
  const isFloat = bits === 32;
  // A format other than whole numbers asks for a fact chunk.
  const factBytes = isFloat ? 12 : 0;
  const padding = dataBytes % 2;
  const total = 4 + 8 + formatBytes + factBytes + 8 + dataBytes + padding;
  if (!(total <= largest)) throw new RangeError(`a WAV file cannot hold ${dataBytes} bytes of sound`);
  const header = new Uint8Array(8 + total - dataBytes - padding);
  const view = new DataView(header.buffer);
  const tag = isFloat ? 3 : 1;
  text(header, 0, 'RIFF');
  view.setUint32(4, total, true);
  text(header, 8, 'WAVEfmt ');
  view.setUint32(16, formatBytes, true);
  view.setUint16(20, isExtensible ? 0xfffe : tag, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bits, true);
  if (isExtensible) {
    view.setUint16(36, 22, true);
    view.setUint16(38, bits, true);
    view.setUint16(44, tag, true);
    header.set([0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71], 46);
  }
  if (isFloat) {
    text(header, 20 + formatBytes, 'fact');
    view.setUint32(24 + formatBytes, 4, true);
    view.setUint32(28 + formatBytes, frames, true);
  }
  text(header, header.length - 8, 'data');
  view.setUint32(header.length - 4, dataBytes, true);
  return { header, frames: encoderOf(bits), end: new Uint8Array(padding) };
}

/** A whole sound as a WAV file; for short ones. */
export function wavBytes(
  target: Omit<WavTarget, 'channels'>,
  channels: readonly ArrayLike<number>[],
): Uint8Array {
  const frames = channels[0]?.length ?? 0;
  const writer = wavWriter({ ...target, channels: channels.length }, frames);
  const body = writer.frames(channels);
  const bytes = new Uint8Array(writer.header.length + body.length + writer.end.length);
  bytes.set(writer.header);
  bytes.set(body, writer.header.length);
  return bytes;
}

function encoderOf(bits: WavTarget['bits']): WavWriter['frames'] {
  return (channels) => {
    const frames = channels[0]?.length ?? 0;
    const step = bits / 8;
    const bytes = new Uint8Array(frames * channels.length * step);
    const view = new DataView(bytes.buffer);
    channels.forEach((samples, channel) => {
      for (let frame = 0; frame < frames; frame++) {
        const offset = (frame * channels.length + channel) * step;
        const value = samples[frame] ?? 0;
        if (bits === 32) view.setFloat32(offset, value, true);
        else if (bits === 16) view.setInt16(offset, whole(value, 0x8000), true);
        else {
          const number = whole(value, 0x800000);
          view.setUint16(offset, number & 0xffff, true);
          view.setInt8(offset + 2, number >> 16);
        }
      }
    });
    return bytes;
  };
}

function whole(value: number, scale: number): number {
  return Math.max(-scale, Math.min(scale - 1, Math.round(value * scale))) || 0;
}

function text(bytes: Uint8Array, at: number, characters: string): void {
  for (let index = 0; index < characters.length; index++) bytes[at + index] = characters.charCodeAt(index);
}
