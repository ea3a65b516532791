import type { Block } from './render.js';

/** How samples are written: whole numbers of 16 or 24 bits, or IEEE floats of 32. */
export type SampleFormat = '16' | '24' | 'float';

/** Takes a finished stereo sound, stretch by stretch; whoever writes files gives one. */
export interface WavSink {
  /** Is told once, before the first stretch. */
  begin(sound: {
    readonly sampleRate: number;
    readonly format: SampleFormat;
    readonly frames: number;
  }): void | Promise<void>;
  write(block: Block): void | Promise<void>;
  /** Is told once, behind the last stretch. */
  end(): void | Promise<void>;
}

/** Takes bytes, one stretch behind the other. */
export type ByteSink = (bytes: Uint8Array) => void | Promise<void>;

const channels = 2;

/** Tags of WAVE formats (RIFF WAVE, Microsoft's mmreg.h; from memory). */
const pcmTag = 1;
const floatTag = 3;

/** Sizes in a WAV file have 32 bits. */
const mostBytes = 0xffff_ffff - 64;

/** Whether so much sound fits into a WAV file. */
export function fitsWav(frames: number, format: SampleFormat): boolean {
  return frames * channels * bytesOf(format) <= mostBytes;
}

/** Writes a WAV file to where bytes go. Its length is told at the beginning, so nothing is gone back to. */
export function wavSink(write: ByteSink): WavSink {
  let format: SampleFormat = '16';
  return {
    begin(sound) {
      format = sound.format;
      return write(header(sound));
    },
    write: (block) => write(encoded(block, format)),
    end() {},
  };
}

function bytesOf(format: SampleFormat): number {
  return { '16': 2, '24': 3, float: 4 }[format];
}

/** A float file has a longer format chunk, and a fact chunk with its frames. */
function header({ sampleRate, format, frames }: Parameters<WavSink['begin']>[0]): Uint8Array {
  const isFloat = format === 'float';
  const frameBytes = channels * bytesOf(format);
  const formatBytes = isFloat ? 18 : 16;
  const head = 12 + 8 + formatBytes + (isFloat ? 12 : 0) + 8;
  const view = new DataView(new ArrayBuffer(head));
  let at = 0;
  const id = (text: string) => {
    for (const character of text) view.setUint8(at++, character.charCodeAt(0));
  };
  const word = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  const long = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };
  id('RIFF');
  long(head - 8 + frames * frameBytes);
  id('WAVEfmt ');
  long(formatBytes);
  word(isFloat ? floatTag : pcmTag);
  word(channels);
  long(sampleRate);
  long(sampleRate * frameBytes);
  word(frameBytes);
  word(8 * bytesOf(format));
  if (isFloat) {
    word(0);
    id('fact');
    long(4);
    long(frames);
  }
  id('data');
  long(frames * frameBytes);
  return new Uint8Array(view.buffer);
}

function encoded({ left, right }: Block, format: SampleFormat): Uint8Array {
  const size = bytesOf(format);
  const view = new DataView(new ArrayBuffer(left.length * channels * size));
  const put = writerOf(view, format);
  for (let frame = 0; frame < left.length; frame += 1) {
    put(frame * channels * size, left[frame] ?? 0);
    put((frame * channels + 1) * size, right[frame] ?? 0);
  }
  return new Uint8Array(view.buffer);
}

function writerOf(view: DataView, format: SampleFormat): (at: number, sample: number) => void {
  if (format === 'float') return (at, sample) => view.setFloat32(at, sample, true);
  if (format === '16') return (at, sample) => view.setInt16(at, whole(sample, 32_768), true);
  return (at, sample) => {
    const value = whole(sample, 8_388_608);
    view.setUint16(at, value & 0xffff, true);
    view.setInt8(at + 2, value >> 16);
  };
}

function whole(sample: number, scale: number): number {
  return Math.max(-scale, Math.min(scale - 1, Math.round(sample * scale)));
}
