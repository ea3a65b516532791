// The stages of the pipeline, for programs that need what lies between the bytes and the result.

export {
  type Arranged,
  type SetOptions,
  type SymbolsText,
  setSong,
  type VoiceOptions,
  type VoicePart,
  voiceSong,
} from './arrange/index.js';
export { clipFile, type SoundingPart } from './clip/index.js';
export { compareMaps } from './compare/index.js';
export {
  analyse,
  type Compiled,
  type CompiledPart,
  type CompiledParts,
  compile,
  compileParts,
  type Decision,
  decide,
  type Job,
  partsOf,
  runExamples,
} from './compile/index.js';
export {
  type CompiledCue,
  type Cue,
  type CueDynamics,
  type CueLayer,
  type CueMaterial,
  type CuePart,
  compileCue,
  mapsOf,
  onlyParts,
  type PlannedCue,
  planCue,
  readCue,
} from './cue/index.js';
export {
  codes,
  type Diagnostic,
  type DiagnosticCode,
  formatDiagnostic,
  type Outcome,
  type Place,
  type Severity,
} from './diagnostics/index.js';
export type * from './map/index.js';
export {
  knownMarks,
  type Meaning,
  matchMeaning,
  meaningsOfNotes,
  nearnessOf,
  readMap,
  readMeaning,
} from './map/index.js';
export {
  type Chunk,
  type Clock,
  clockOf,
  type Division,
  type Line,
  type MeasuredNote,
  type MidiEvent,
  type Onset,
  type Part,
  readMidi,
  type Song,
  type Span,
  type Track,
  writeMidi,
} from './midi/index.js';
export {
  type Chord,
  type Harmony,
  harmonyOf,
  type Key,
  registerOf,
  type SoundingNote,
  soundingNotes,
  voicingOf,
} from './music/index.js';
export { type Report, type ReportNote, report } from './report/index.js';
export {
  type Alignment,
  align,
  type MarkedTake,
  markSong,
  markTake,
  type Performance,
  playScore,
  readScore,
  readSong,
  type Score,
  scoreToMidi,
  type Unmatched,
} from './score/index.js';
