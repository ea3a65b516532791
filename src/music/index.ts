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
  briefJson,
  briefText,
  type Inspected,
  type InspectionRemark,
  inspect,
  inspectBriefly,
  type Music,
  musicOf,
  type Section,
  sectionOf,
} from './inspections/index.js';
export { instrumentOf } from './instruments/index.js';
export { registerOf } from './register/index.js';
export { voicingOf } from './voicing/index.js';
