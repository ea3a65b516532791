/**
 * A value in more bits: the lowest stays the lowest, the middle the middle, the highest the highest, and the bits below
 * the middle are repeated for what lies above it (M2-115-U 1.0.2, "MIDI 2.0 Bit Scaling and Resolution", min-center-max).
 *
 * @param value 0 … 2^from − 1
 * @param from bits that it has, at least 2
 * @param to bits that it is to have, `from` to 32
 * @example scaleUp(70, 7, 16) // 0x8C30
 */
export function scaleUp(value: number, from: number, to: number): number {
  const shifted = value * 2 ** (to - from);
  if (value <= 2 ** (from - 1)) return shifted;
  const repeated = from - 1;
  let rest = (value % 2 ** repeated) * 2 ** (to - from - repeated);
  let sum = shifted;
  // Where fewer bits are added than are repeated, only their upper part has room.
  while (rest >= 1) {
    sum += Math.floor(rest);
    rest /= 2 ** repeated;
  }
  return sum;
}
