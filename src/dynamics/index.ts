// Loudness: marks and levels, curves and controllers, decibels, players and pan.
export { type Curve, curveThrough } from './curve.js';
export { decibels, faderFor, shifted } from './decibel.js';
export { controllerPoints } from './hold.js';
export {
  type DynamicMark,
  dynamicMarks,
  exactRescaler,
  identityLevels,
  type LevelTable,
  levelOfMark,
  levelScale,
  rescaler,
  withinMarks,
} from './levels.js';
export { dynamicWord, isDynamicMark, type PlacedWord, targetsOfMarks } from './marks.js';
export { fullLaw, type PanAnswer, type PanLaw, panLaw } from './pan/answer.js';
export { differenceOfSeat, panOfSeat, seatOfDifference, seatOfPan } from './pan/pan.js';
export { defaultShare, type Placing, place } from './pan/place.js';
export { phrasesOf } from './phrases.js';
export { playersOffset, together } from './players.js';
export { defaultShape, shapeTargets } from './shape.js';
export { type Struck, struckOf } from './struck.js';
export { exactVelocityOfLevel, levelOfVelocity, velocityBy, velocityOfLevel } from './velocity.js';
