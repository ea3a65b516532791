import type { SheetPart } from '../../types.js';
import type { Columns } from '../columns.js';

/** The lane under a part's staff, in one system. Lengths in units of the system. */
export interface Lane {
  readonly part: SheetPart;
  readonly columns: Columns;
  /** The height of its time line. */
  readonly y: number;
}

/** How high the curve rises above the time line. */
export const curveHeight = 500;

/** How far the curve's foot stands above the time line. */
export const curveFoot = 60;

/** The height of small texts, and about how wide a letter of them is. */
export const smallText = 270;
export const letterWidth = 0.56 * smallText;

/** How far under the time line the texts of a part's articulations stand, and those of its layers' switches. */
export const textRows = { part: 300, layer: 580 } as const;
