// What is found in music without maps: harmony, voicing, register, balance, what sounds mechanical.
export {
  type Chord,
  type Harmony,
  harmonyOf,
  type Key,
  nameFifths,
  type SoundingNote,
  soundingNotes,
} from './harmony/index.js';
export {
  type BarBalance,
  balanceByBar,
  balanceText,
  coveredBars,
  formatCovered,
  harmonyJson,
  harmonyText,
  inspect,
  inspectedText,
  musicOf,
  observationText,
  outsideInstrumentText,
  registerJson,
  registerText,
  type Section,
  sectionOf,
  voicingJson,
  voicingRemarks,
  voicingText,
} from './inspections/index.js';
export { instrumentOf, registerOf } from './register/index.js';
export { voicingOf } from './voicing/index.js';
