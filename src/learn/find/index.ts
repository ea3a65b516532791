// Finds the ladder that describes labelled notes in the fewest bits.
export { type Bins, layIntoBins } from './bins.js';
export { type Candidate, candidate, climb } from './climb.js';
export { type Condition, type Problem, problemOf, type Rung, rung } from './problem.js';
export { commonest, type Effort, searchLadder } from './search.js';
export { bestSingleBound } from './single.js';
export { tidy } from './tidy.js';
export { translate } from './translate.js';
