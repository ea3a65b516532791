// How loud sections are against each other.
export { balanceAt, type Covered, type OnsetBalance, type Sounding, tolerated } from './covering.js';
export { departmentPlayers, loudnessOf, strengthOf } from './strength.js';
