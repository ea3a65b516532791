/** Two bytes, the most significant first. */
export function uint16(bytes: Uint8Array, at: number): number {
  return ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
}

/** Four bytes, the most significant first; never negative. */
export function uint32(bytes: Uint8Array, at: number): number {
  return uint16(bytes, at) * 0x10000 + uint16(bytes, at + 2);
}

/** The four letters of a chunk's name. */
export function asciiAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

/**
 * The offset behind the variable-length quantity at `at`: above `end` where it runs past the end, −1 where it has
 * more than the four bytes that Standard MIDI File 1.0 allows.
 */
export function behindQuantity(bytes: Uint8Array, at: number, end: number): number {
  const most = Math.min(at + 4, end);
  for (let next = at; next < most; next++) if ((bytes[next] ?? 0) < 0x80) return next + 1;
  return most < at + 4 ? end + 1 : -1;
}

/** The value of the variable-length quantity between two offsets: seven bits a byte, the most significant first. */
export function quantity(bytes: Uint8Array, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at++) value = (value << 7) | ((bytes[at] ?? 0) & 0x7f);
  return value;
}
