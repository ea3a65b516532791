import type { ArticulationId, Direction } from '../map/index.js';

const directions: Readonly<Record<Direction, number>> = { down: 1, up: 2 };

/** The attribute type where a note says nothing of how it is played. */
export const noAttribute = { type: 0, data: 0 };

/**
 * The attribute of a note-on: its type is the class, its data from the top the subclass (4 bits), the variation (4), the
 * direction (2), two bits unused, the round robin's reset (1) and the string (3): M2-123-UM 1.0, 4.1.
 */
export function attributeOf(
  { type, subclass, variation }: ArticulationId,
  direction?: Direction,
): { readonly type: number; readonly data: number } {
  const stroke = direction ? directions[direction] : 0;
  return { type, data: subclass * 0x1000 + variation * 0x100 + stroke * 0x40 };
}
