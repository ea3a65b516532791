// What articulations mean apart from any library: names of notation and the trade, and the classes of M2-123.
export { type ArticulationClass, articulationClasses, printedName } from './classes.js';
export { combineMeanings } from './combine.js';
export { type Counterpart, counterpartOf, type Likeness, likenessOf } from './counterpart.js';
export { type DecidedNote, meaningsOfNotes } from './decided.js';
export { type Match, matchMeaning, type Nearness, nearnessOf } from './match.js';
export { meaningsByName } from './names.js';
export { articulationName, type Read, readMeaning } from './read.js';
export { type NamedSound, soundMeaning, soundMeanings } from './sound.js';
export type { ArticulationId, Direction, Meaning } from './types.js';
