/** Bytes that come in pieces, taken in the lengths that are wanted. */
export interface ByteReader {
  /** How many bytes were taken or passed over. */
  position(): number;
  /** The next bytes; fewer than asked for only at the end. */
  take(count: number): Promise<Uint8Array>;
  /** The next bytes as they lie there, at most `most`; none at the end. */
  some(most: number): Promise<Uint8Array>;
  /** Passes bytes over. */
  skip(count: number): Promise<void>;
  /** Tells the source that no more is wanted. */
  close(): Promise<void>;
}

const nothing: Uint8Array = new Uint8Array(0);

/** Reads pieces of any length; holds one of them at a time. */
export function byteReader(pieces: AsyncIterable<Uint8Array>): ByteReader {
  const source = pieces[Symbol.asyncIterator]();
  let piece: Uint8Array = nothing;
  let at = 0;
  let position = 0;

  const some = async (most: number): Promise<Uint8Array> => {
    while (at >= piece.length) {
      const next = await source.next();
      if (next.done) return nothing;
      piece = next.value;
      at = 0;
    }
    const part = piece.subarray(at, at + most);
    at += part.length;
    position += part.length;
    return part;
  };
  return {
    position: () => position,
    some,
    async take(count) {
      const first = await some(count);
      if (first.length === count || first.length === 0) return first;
      const whole = new Uint8Array(count);
      whole.set(first);
      let length = first.length;
      while (length < count) {
        const more = await some(count - length);
        if (more.length === 0) return whole.subarray(0, length);
        whole.set(more, length);
        length += more.length;
      }
      return whole;
    },
    async skip(count) {
      for (let left = count; left > 0; ) {
        const passed = await some(left);
        if (passed.length === 0) return;
        left -= passed.length;
      }
    },
    async close() {
      await source.return?.();
    },
  };
}
