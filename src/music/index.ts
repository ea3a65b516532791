// What is found in music without maps: harmony, voicing, register, balance, what sounds mechanical.

export type { Voice } from './balance/index.js';
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
  firstProgram,
  type Inspected,
  type InspectionRemark,
  inspect,
  inspectBriefly,
  type Music,
  musicOf,
  type Section,
  sectionOf,
  sectionsOfJobs,
  type VoiceJob,
} from './inspections/index.js';
export { instrumentOf } from './instruments/index.js';
export { registerOf } from './register/index.js';
export { lowIntervalLimits, voicingOf } from './voicing/index.js';
