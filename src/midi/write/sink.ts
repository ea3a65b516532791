/** Bytes that grow at the end. */
export interface Sink {
  /** Adds the bytes of `source` from an index on. */
  append(source: ArrayLike<number>, from?: number): void;
  /** The bytes so far. */
  bytes(): Uint8Array;
}

export function sink(expected: number): Sink {
  let room = new Uint8Array(Math.max(16, expected));
  let length = 0;
  const reserve = (more: number) => {
    if (length + more <= room.length) return;
    const larger = new Uint8Array(Math.max(length + more, room.length * 2));
    larger.set(room.subarray(0, length));
    room = larger;
  };
  return {
    append(source, from = 0) {
      reserve(source.length - from);
      for (let at = from; at < source.length; at++) room[length++] = source[at] ?? 0;
    },
    bytes: () => room.subarray(0, length),
  };
}
