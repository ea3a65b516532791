import { failed, found, type Result } from '../problem.js';
import { type Chunk, chunkNamed } from './riff.js';

/**
 * Counts that are written in chunks of a DLS bank (DLS Level 1 1.1b, Level 2.2; from memory): where the count stands,
 * where what is counted begins (by a size of the header where that is written there), how long one is.
 */
const counted: Readonly<Record<string, { readonly at: number; readonly each: number }>> = {
  ptbl: { at: 4, each: 4 },
  art1: { at: 4, each: 12 },
  art2: { at: 4, each: 12 },
  wsmp: { at: 16, each: 16 },
};

/** More of these than any bank has; they are compared each with each. */
const mostConnections = 1024;
const mostRegions = 20_000;

/** Checks that the lists of a DLS bank are there, and that what is counted in its chunks has room in them. */
export function checkDls(bytes: Uint8Array, riff: Chunk): Result<true> {
  for (const name of ['colh', 'lins', 'ptbl', 'wvpl'])
    if (!chunkNamed(riff.chunks, name))
      return failed('bank-structure', `the bank has no "${name}"`, {
        hint: 'a DLS bank has colh, lins, ptbl and wvpl',
      });
  return checkChunks(bytes, riff);
}

function checkChunks(bytes: Uint8Array, { list, chunks }: Chunk): Result<true> {
  if (list === 'lrgn' && chunks.length > mostRegions)
    return failed('bank-too-large', `an instrument of the bank has ${chunks.length} regions`);
  for (const chunk of chunks) {
    const checked = chunk.list === undefined ? checkCount(bytes, chunk) : checkChunks(bytes, chunk);
    if (!checked.ok) return checked;
  }
  return found(true);
}

function checkCount(bytes: Uint8Array, { id, start, end }: Chunk): Result<true> {
  const rule = counted[id];
  if (!rule) return found(true);
  const length = end - start;
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, length);
  if (length < rule.at + 4)
    return failed('bank-structure', `a "${id}" chunk is too short`, { offset: start });
  const header = view.getUint32(0, true);
  const count = view.getUint32(rule.at, true);
  if (header + count * rule.each > length)
    return failed('bank-structure', `a "${id}" chunk counts ${count}, for which it is too short`, {
      offset: start,
    });
  if (id.startsWith('art') && count > mostConnections)
    return failed('bank-too-large', `a "${id}" chunk has ${count} connections`, { offset: start });
  return found(true);
}
