// Loudness: marks and levels, curves and controllers, decibels, players and pan.
export { type Curve, curveThrough } from './curve.js';
export { decibels, faderFor, shifted } from './decibel.js';
export { controllerPoints } from './hold.js';
export {
  type DynamicMark,
  dynamicMarks,
  identityLevels,
  type LevelTable,
  levelOfMark,
  levelScale,
  rescaler,
  withinMarks,
} from './levels.js';
export { dynamicWord, type PlacedWord, targetsOfMarks } from './marks.js';
export { differenceOfSeat, panOfSeat, seatOfDifference, seatOfPan } from './pan/pan.js';
export { defaultShare, type Placing, place } from './pan/place.js';
export { playersOffset } from './players.js';
export { defaultShape, shapeTargets } from './shape.js';
export { struckOf } from './struck.js';
export { levelOfVelocity, velocityOfLevel } from './velocity.js';
