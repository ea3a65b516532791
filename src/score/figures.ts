import type { Figure, FigureSound } from './model.js';
import type { Neighbours } from './neighbours.js';

type Shape = Pick<Figure, 'kind' | 'isInverted' | 'isDelayed'>;

const shape = (kind: Figure['kind'], isInverted = false, isDelayed = false): Shape => {
  return { kind, isInverted, isDelayed };
};

/** Ornaments by their MusicXML 4.0 names. A haydn is played as a turn (common practice, no source). */
const shapes: ReadonlyMap<string, Shape> = new Map([
  ['trill-mark', shape('trill')],
  ['wavy-line', shape('trill')],
  ['shake', shape('shake')],
  ['mordent', shape('mordent')],
  ['inverted-mordent', shape('mordent', true)],
  ['turn', shape('turn')],
  ['vertical-turn', shape('turn')],
  ['delayed-turn', shape('turn', false, true)],
  ['inverted-turn', shape('turn', true)],
  ['inverted-vertical-turn', shape('turn', true)],
  ['delayed-inverted-turn', shape('turn', true, true)],
  ['haydn', shape('turn')],
  ['schleifer', shape('schleifer')],
]);

export const openSound: FigureSound = {
  start: null,
  ending: null,
  beats: null,
  accelerates: false,
  second: null,
  last: null,
};

/** The figure of an ornament's name; undefined for what is no figure. */
export function figureOf(
  name: string,
  distances: Neighbours,
  sound: FigureSound = openSound,
  isLong = false,
): Figure | undefined {
  const found = shapes.get(name);
  return found && { ...found, ...distances, marks: [name], isLong, sound, hasLine: name === 'wavy-line' };
}
