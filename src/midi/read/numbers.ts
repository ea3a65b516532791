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
