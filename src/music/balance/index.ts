// How loud sections are against each other.
export { balanceAt, type Covered, type OnsetBalance, type Sounding, tolerated } from './covering.js';
export { energyByBar, levelOfPower, type VoiceBar } from './energy.js';
export { type UpperLine, upperLine } from './line.js';
export type { Voice } from './loud.js';
export { departmentOf, departmentPlayers, loudnessOf, measuredLoudness, strengthOf } from './strength.js';
export { tuneByBar } from './tune.js';
