/** How much is written at once. Unit: characters. */
const blockLength = 64 * 1024;

/** Small pieces of a text put together, so that not each of them is written by itself; none is taken apart. */
export function* inBlocks(pieces: Iterable<string>): Generator<string> {
  let block: string[] = [];
  let length = 0;
  for (const piece of pieces) {
    block.push(piece);
    length += piece.length;
    if (length < blockLength) continue;
    yield block.join('');
    block = [];
    length = 0;
  }
  if (length > 0) yield block.join('');
}
