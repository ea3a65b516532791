// What is told of a recording without a map: each inspection looks, tells and remarks.
export { type BarBalance, balanceByBar } from './balance.js';
export { balanceText, coveredBars, formatCovered } from './balance-text.js';
export { harmonyJson, harmonyText } from './harmony-text.js';
export { type Inspected, inspect } from './mechanical.js';
export { musicOf } from './music.js';
export { observationText, outsideInstrumentText, registerJson, registerText } from './register-text.js';
export { type Section, sectionOf } from './sections.js';
export { inspectedText } from './text.js';
export { voicingJson, voicingRemarks, voicingText } from './voicing-text.js';
