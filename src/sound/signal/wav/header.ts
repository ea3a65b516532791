import type { ByteReader } from './bytes.js';
import { WavError } from './error.js';
import { readFormat, type WavFormat } from './format.js';

/** What stands before the samples. */
export interface WavHeader {
  readonly format: WavFormat;
  /** Frames that the header promises; undefined where it leaves them open. */
  readonly frames: number | undefined;
}

/** A chunk's length that says "until the end": written by programs that did not know it yet, and by RF64. */
const open = 0xffffffff;

/** The longest format chunk that is taken for one. Unit: bytes. */
const longestFormat = 4096;

/**
 * Reads up to the first sample: RIFF, or RF64 and BW64, which say the length of more than 4 GB in a chunk of their own
 * (EBU Tech 3306, from memory). Other chunks are passed over.
 *
 * @throws WavError
 */
export async function readHeader(reader: ByteReader): Promise<WavHeader> {
  const riff = await reader.take(12);
  const id = textAt(riff, 0);
  if (riff.length < 12 || !['RIFF', 'RF64', 'BW64'].includes(id) || textAt(riff, 8) !== 'WAVE')
    throw notWav(riff);
  const contents = new Map<string, Content>();
  for (;;) {
    const offset = reader.position();
    const head = await reader.take(8);
    const fmt = contents.get('fmt ');
    if (head.length < 8) throw noSound(offset, fmt !== undefined);
    const length = new DataView(head.buffer, head.byteOffset, 8).getUint32(4, true);
    const chunk = textAt(head, 0);
    if (chunk !== 'data') {
      const bytes = await readContent(reader, chunk, length);
      if (bytes) contents.set(chunk, { bytes, offset: offset + 8 });
      continue;
    }
    if (!fmt) throw new WavError('not-wav', offset, 'its sound stands before its format', again);
    const format = readFormat(fmt.bytes, fmt.offset);
    const isLarge = id !== 'RIFF' && length === open;
    return { format, frames: framesOf(isLarge ? dataLength(contents.get('ds64')) : length, format) };
  }
}

interface Content {
  readonly bytes: Uint8Array;
  /** Where it begins in the file. */
  readonly offset: number;
}

/** The content of a chunk that says something of the sound; others are passed over. Chunks begin at even offsets. */
async function readContent(
  reader: ByteReader,
  chunk: string,
  length: number,
): Promise<Uint8Array | undefined> {
  const isRead = chunk === 'fmt ' || chunk === 'ds64';
  const content = isRead ? await reader.take(Math.min(length, longestFormat)) : undefined;
  await reader.skip(length - (content?.length ?? 0) + (length % 2));
  return content;
}

const again = 'export the sound again, as plain WAV';

function framesOf(bytes: number | undefined, { frameBytes }: WavFormat): number | undefined {
  // A length of 0 is left behind by programs that were stopped, or that write to a pipe.
  if (bytes === undefined || bytes === 0 || bytes === open) return undefined;
  return Math.floor(bytes / frameBytes);
}

function dataLength(content: Content | undefined): number | undefined {
  if (!content || content.bytes.length < 16) return undefined;
  const { buffer, byteOffset, length } = content.bytes;
  return Number(new DataView(buffer, byteOffset, length).getBigUint64(8, true));
}

function notWav(found: Uint8Array): WavError {
  const message = found.length === 0 ? 'the file is empty' : 'the file does not begin like a WAV file';
  return new WavError('not-wav', 0, message, 'give a stereo WAV file (.wav)');
}

function noSound(offset: number, hasFormat: boolean): WavError {
  const what = hasFormat ? 'it has a format, but no sound' : 'it ends before its format';
  return new WavError('wav-truncated', offset, what, 'the file was cut short: copy or export it again');
}

function textAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
