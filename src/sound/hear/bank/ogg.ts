/** A page of Ogg begins with these (RFC 3533, section 6). */
const capture = [0x4f, 0x67, 0x67, 0x53];
const headerBytes = 27;

/**
 * The most samples that an Ogg Vorbis stream can unfold to, by how many packets it has (RFC 3533, section 6: a packet ends
 * with a lacing value below 255) and by how long its longer blocks are (Vorbis I, 4.2.2: the identification header; half
 * of a block is new with each packet). undefined where it is no such stream.
 */
export function mostSamples(bytes: Uint8Array): number | undefined {
  let at = 0;
  let packets = 0;
  let block: number | undefined;
  while (at + headerBytes <= bytes.length) {
    if (!capture.every((byte, index) => bytes[at + index] === byte)) break;
    const segments = bytes[at + 26] ?? 0;
    const data = at + headerBytes + segments;
    let length = 0;
    for (let index = at + headerBytes; index < data; index += 1) {
      const lacing = bytes[index] ?? 0;
      length += lacing;
      if (lacing < 255) packets += 1;
    }
    block ??= longBlock(bytes, data);
    at = data + length;
  }
  return block === undefined ? undefined : packets * (block / 2);
}

/** The longer of the two block sizes, where an identification header begins at a place. Unit: samples. */
function longBlock(bytes: Uint8Array, at: number): number | undefined {
  const isHeader = bytes[at] === 1 && String.fromCharCode(...bytes.subarray(at + 1, at + 7)) === 'vorbis';
  const sizes = bytes[at + 28];
  return isHeader && sizes !== undefined ? 2 ** Math.max(sizes & 15, sizes >> 4) : undefined;
}
