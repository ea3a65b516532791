/** The longest time between two events that a file can say: four bytes of seven bits (Standard MIDI File 1.0). */
export const longestDelta = 0x0fffffff;

/** Whether a number is a time that a file can say. */
export function isDelta(delta: number): boolean {
  return Number.isInteger(delta) && delta >= 0 && delta <= longestDelta;
}

/**
 * The offset behind the variable-length quantity at `at`: above `end` where it runs past the end, −1 where it has
 * more than the four bytes that Standard MIDI File 1.0 allows.
 */
export function behindQuantity(bytes: Uint8Array, at: number, end: number): number {
  // Most are short.
  if (at < end && (bytes[at] ?? 0) < 0x80) return at + 1;
  const most = Math.min(at + 4, end);
  for (let next = at; next < most; next++) if ((bytes[next] ?? 0) < 0x80) return next + 1;
  return most < at + 4 ? end + 1 : -1;
}

/** The value of the variable-length quantity between two offsets: seven bits a byte, the most significant first. */
export function quantity(bytes: Uint8Array, from: number, to: number): number {
  if (to === from + 1) return (bytes[from] ?? 0) & 0x7f;
  let value = 0;
  for (let at = from; at < to; at++) value = (value << 7) | ((bytes[at] ?? 0) & 0x7f);
  return value;
}

/** Whether the bytes between two offsets are one quantity, and say a value. */
export function saysQuantity(bytes: Uint8Array, from: number, to: number, value: number): boolean {
  if (to === from + 1) return value < 0x80 && bytes[from] === value;
  if (from >= to || to - from > 4) return false;
  for (let at = from; at < to - 1; at++) if ((bytes[at] ?? 0) < 0x80) return false;
  return (bytes[to - 1] ?? 0) < 0x80 && quantity(bytes, from, to) === value;
}

/**
 * Writes a quantity of at most four bytes, as shortly as it can be.
 *
 * @returns the offset behind it
 */
export function putQuantity(bytes: Uint8Array, at: number, value: number): number {
  let next = at;
  if (value > 0x1fffff) bytes[next++] = (value >> 21) | 0x80;
  if (value > 0x3fff) bytes[next++] = (value >> 14) | 0x80;
  if (value > 0x7f) bytes[next++] = (value >> 7) | 0x80;
  bytes[next++] = value & 0x7f;
  return next;
}
