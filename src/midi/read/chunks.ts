import type { Chunk } from '../song.js';
import { asciiAt, uint32 } from './numbers.js';
import { errorAt, type Problem, warningAt } from './problem.js';

/** The chunks behind the header, where they begin, and what is wrong with their frame. */
export interface ChunksRead {
  readonly chunks: readonly (Chunk & { readonly bytes: Uint8Array; readonly offset: number })[];
  readonly problems: readonly Problem[];
}

/** The header counts tracks in 16 bits; a file with more chunks than that was made to harm. */
const maxChunks = 0xffff;

/**
 * Splits a file into chunks. Chunks that are no track are kept as they are and passed over, as Standard MIDI File 1.0
 * asks; so are fewer than eight bytes at the end, which are no chunk at all.
 *
 * @param from the offset behind the header chunk
 */
export function splitChunks(bytes: Uint8Array, from: number): ChunksRead {
  const chunks: ChunksRead['chunks'][number][] = [];
  let track = 0;
  let at = from;
  while (at < bytes.length) {
    if (chunks.length === maxChunks) return { chunks, problems: [tooMany(at)] };
    const left = bytes.length - at;
    if (left < 8) {
      chunks.push({ kind: 'other', bytes: bytes.subarray(at), offset: at });
      return { chunks, problems: [leftOver(at, left)] };
    }
    const end = at + 8 + uint32(bytes, at + 4);
    if (end > bytes.length) return { chunks, problems: [cutShort(bytes, at)] };
    const chunk = bytes.subarray(at, end);
    if (asciiAt(bytes, at) === 'MTrk')
      chunks.push({ kind: 'track', track: ++track, bytes: chunk, offset: at });
    else chunks.push({ kind: 'other', bytes: chunk, offset: at });
    at = end;
  }
  return { chunks, problems: [] };
}

function tooMany(offset: number): Problem {
  const message = `the file has more than ${maxChunks} chunks`;
  return errorAt(offset, 'midi-too-large', message, `a Standard MIDI File has at most ${maxChunks} tracks`);
}

function leftOver(offset: number, count: number): Problem {
  const message = `the file ends with ${count === 1 ? 'a byte that is' : `${count} bytes that are`} no chunk`;
  return warningAt(
    offset,
    'midi-truncated',
    message,
    'they are kept as they are; if music is missing, copy or export the file again',
  );
}

function cutShort(bytes: Uint8Array, offset: number): Problem {
  const length = uint32(bytes, offset + 4);
  const left = bytes.length - offset - 8;
  return errorAt(
    offset,
    'midi-truncated',
    `a chunk of ${length} bytes begins here, but the file has only ${left} more`,
    'the file was cut short, or the chunk gives a wrong length: copy or export the file again',
  );
}
