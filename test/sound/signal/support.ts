/** A file's bytes in pieces of so many. */
export async function* inPieces(bytes: Uint8Array, size: number): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

/** A sine of so many dB of full scale (peak). */
export function sine(frequency: number, level: number, seconds: number, sampleRate: number): Float64Array {
  const peak = 10 ** (level / 20);
  return Float64Array.from(
    { length: Math.round(seconds * sampleRate) },
    (_, index) => peak * Math.sin((2 * Math.PI * frequency * index) / sampleRate),
  );
}

/** Even numbers from −1 to 1, always the same (mulberry32). */
export function noiseSource(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let value = Math.imul(state ^ (state >>> 15), 1 | state);
    value = (value + Math.imul(value ^ (value >>> 7), 61 | value)) ^ value;
    return ((value ^ (value >>> 14)) >>> 0) / 0x80000000 - 1;
  };
}
