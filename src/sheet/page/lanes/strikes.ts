import type { SheetNote } from '../../types.js';
import { at } from '../markup.js';
import { curveFoot, type Lane } from './lane.js';

/** The velocity of notes that are as loud as they are struck: a stroke for each, as high as the velocity. */
export function strikesLane({ columns, y, rise }: Lane, notes: readonly SheetNote[]): string {
  const strokes = notes
    .filter(({ isStruck }) => isStruck)
    .map(({ tick, velocity }) => {
      const foot = y - curveFoot;
      return `M${at(columns.xAt(tick))} ${at(foot)}V${at(foot - (velocity / 127) * rise)}`;
    });
  return strokes.length === 0 ? '' : `<path class="strikes" d="${strokes.join('')}"/>`;
}
