/**
 * keyslip as a library: read → analyse → decide → placeSwitches → write, each a pure function over plain data.
 */

export { compareMaps } from './compare/index.js';
export type { Decision } from './compile/index.js';
export {
  analyse,
  type Compiled,
  type CompiledPart,
  type CompiledParts,
  compile,
  compileParts,
  decide,
  type Job,
  partsOf,
  runExamples,
} from './compile/index.js';
export type { Cue, CueDynamics, CueLayer, CuePart } from './cue/index.js';
export {
  type CompiledCue,
  type CueMaterial,
  compileCue,
  mapsOf,
  onlyParts,
  type PlannedCue,
  planCue,
  readCue,
} from './cue/index.js';
export type { Diagnostic, Outcome, Place, Severity } from './diagnostics/index.js';
export { codes, type DiagnosticCode, formatDiagnostic } from './diagnostics/index.js';
export { readMap } from './map/index.js';
export type * from './map/types.js';
export type {
  Chunk,
  Clock,
  Division,
  Line,
  MeasuredNote,
  MidiEvent,
  Onset,
  Part,
  Song,
  Span,
  Track,
} from './midi/index.js';
export { clockOf, readMidi, writeMidi } from './midi/index.js';
export type { Chord, Harmony, Key, SoundingNote } from './music/index.js';
export { harmonyOf, registerOf, soundingNotes, voicingOf } from './music/index.js';
export { type Report, type ReportNote, report } from './report/index.js';
