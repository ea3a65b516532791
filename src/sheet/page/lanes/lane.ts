import type { SheetPart } from '../../types.js';
import type { Columns } from '../columns.js';

/** The lane under a part's staff, in one system. Lengths in units of the system. */
export interface Lane {
  readonly part: SheetPart;
  readonly columns: Columns;
  /** The height of its time line. */
  readonly y: number;
  /** How high its curve, and the strokes of velocities, may rise above the time line. */
  readonly rise: number;
}

/** How high the curve rises above its foot where there is room, and where low notes leave little. */
const curveHeights = { most: 520, least: 200 } as const;

/**
 * The room for the curve between a time line and the notes that stand low above it.
 *
 * @param heads the heights of heads
 * @param middle of the staff: stems of heads above it lead down
 */
export function riseAbove(y: number, heads: readonly number[], middle: number): number {
  const lowest = heads.reduce((most, head) => Math.max(most, head < middle ? head + stem : head), 0);
  const room = y - curveFoot - lowest - headRoom;
  return Math.max(curveHeights.least, Math.min(curveHeights.most, room));
}

/** Three and a half staff spaces (common practice, no source), and half a space for beams. */
const stem = 720;

/** Half a head, and air below it. */
const headRoom = 150;

/** How far the curve's foot stands above the time line. */
export const curveFoot = 60;

/** The height of small texts, and about how wide a letter of them is. */
export const smallText = 270;
export const letterWidth = 0.56 * smallText;

/** How far under the time line the texts of a part's articulations stand, and those of its layers' switches. */
export const textRows = { part: 300, layer: 580 } as const;
