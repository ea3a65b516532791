import { failed, found, type Result } from '../problem.js';

/** A chunk of a RIFF file. Offsets are of bytes in the file. */
export interface Chunk {
  readonly id: string;
  /** The form or list type, of chunks that hold chunks. */
  readonly list?: string;
  /** Where its data begin, behind the form type of a list. */
  readonly start: number;
  /** Where its data end. */
  readonly end: number;
  readonly chunks: readonly Chunk[];
}

/** More chunks than any bank has; each of them costs memory. */
const mostChunks = 500_000;
const mostDepth = 8;

/**
 * The chunks of a RIFF file (Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0, 1991; from
 * memory): an id of four characters, a size of 32 bits, little-endian, the data, and a byte more where the size is odd.
 * Errors where a size leads out of its list. What stands behind the RIFF chunk is passed over.
 */
export function readRiff(bytes: Uint8Array): Result<Chunk> {
  return readChunk(
    { bytes, view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), count: 0 },
    0,
  );
}

interface Reading {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  /** Of the chunks that were read. */
  count: number;
}

/** @param limit the byte at which the list around it ends */
function readChunk(reading: Reading, offset: number, limit = reading.bytes.length, depth = 0): Result<Chunk> {
  const { bytes, view } = reading;
  reading.count += 1;
  if (reading.count > mostChunks || depth > mostDepth)
    return failed('bank-too-large', 'the bank has more chunks, or deeper ones, than any bank', { offset });
  if (offset + 8 > limit)
    return failed('bank-truncated', "the bank ends within a chunk's header", { offset });
  const id = text(bytes, offset);
  const start = offset + 8;
  const end = start + view.getUint32(offset + 4, true);
  if (end > limit) return tooLong(id, offset, end, limit, bytes.length);
  if (id !== 'RIFF' && id !== 'LIST') return found({ id, start, end, chunks: [] });
  if (end - start < 4) return failed('bank-structure', `a "${id}" chunk has no type`, { offset });
  const chunks = readChunks(reading, start + 4, end, depth + 1);
  return chunks.ok
    ? found({ id, list: text(bytes, start), start: start + 4, end, chunks: chunks.value })
    : chunks;
}

function readChunks(reading: Reading, start: number, end: number, depth: number): Result<readonly Chunk[]> {
  const chunks: Chunk[] = [];
  let at = start;
  // a byte of padding may be left over
  while (at + 1 < end) {
    const inner = readChunk(reading, at, end, depth);
    if (!inner.ok) return inner;
    chunks.push(inner.value);
    at = inner.value.end + ((inner.value.end - at) % 2);
  }
  return found(chunks);
}

function tooLong(id: string, offset: number, end: number, limit: number, file: number) {
  const size = end - offset - 8;
  const message =
    offset === 0
      ? `the bank says that it is ${end} bytes long, but ${end - limit} of them are not there`
      : `the chunk "${id}" is to be ${size} bytes long, ${end - limit} more than are there`;
  return failed(limit === file ? 'bank-truncated' : 'bank-structure', message, { offset });
}

/** The first chunk of an id, or the first list of a type. */
export function chunkNamed(chunks: readonly Chunk[], name: string): Chunk | undefined {
  return chunks.find(({ id, list }) => (list ?? id) === name);
}

/** Four characters, printable ones only. */
function text(bytes: Uint8Array, offset: number): string {
  return String.fromCharCode(...bytes.subarray(offset, offset + 4)).replace(/[^ -~]/gu, '?');
}
