import { dynamicMarks } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { controllerEvents, secondData, type Track, tickOf } from '../midi/index.js';
import type { SheetCurve } from './types.js';

/** The controllers that shape held notes where a map names none: modulation, expression, breath (MIDI 1.0). */
const usual = [1, 11, 2];

/** The curve of a part: its map's dynamics controller, else the first usual one that the track has. */
export function curveOf(
  { columns }: Track,
  channel: number,
  { dynamics }: ArticulationMap,
): SheetCurve | undefined {
  const marks = dynamicMarks.flatMap((mark) => {
    const value = dynamics?.levels.get(mark);
    return value === undefined ? [] : [{ mark, value }];
  });
  for (const controller of dynamics ? [dynamics.controller] : usual) {
    const points = controllerEvents(columns, channel, controller).map((event) => ({
      tick: tickOf(columns, event),
      value: secondData(columns, event),
    }));
    if (points.length > 0) return { controller, points, marks };
  }
  return undefined;
}
