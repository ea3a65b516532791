/**
 * keyslip as a library: read → understand → decide → realise → write, each a pure function over plain data.
 */
export { runExamples } from './check/examples.js';
export { compareMaps } from './compare/index.js';
export {
  type Compiled,
  type CompiledPart,
  compile,
  type Job,
  type RealisedParts,
  realiseParts,
} from './compile/index.js';
export {
  type CompiledCue,
  type CueMaterial,
  compileCue,
  mapsOf,
  onlyParts,
  type PlannedCue,
  planCue,
} from './cue/index.js';
export { decide } from './decide/index.js';
export { codes, type DiagnosticCode } from './diagnose/codes.js';
export { formatDiagnostic } from './diagnose/format.js';
export { type Report, type ReportNote, report } from './explain/report.js';
export { harmonyOf, soundingNotes } from './harmony/index.js';
export type { Cue, CueDynamics, CueLayer, CuePart } from './model/cue.js';
export type { Decision } from './model/decision.js';
export type { Diagnostic, Outcome, Place, Severity } from './model/diagnostic.js';
export type { Chord, Harmony, Key, SoundingNote } from './model/harmony.js';
export type { Line, MeasuredNote, Onset, Part, Span } from './model/line.js';
export type * from './model/map.js';
export type { Chunk, Division, MidiEvent, Song, Track } from './model/song.js';
export { readCue } from './read/cue/index.js';
export { readMap } from './read/map/index.js';
export { readMidi } from './read/midi/index.js';
export { registerOf } from './register/index.js';
export type { Clock } from './time/clock.js';
export { clockOf } from './time/index.js';
export { partsOf, understand } from './understand/index.js';
export { voicingOf } from './voicing/index.js';
export { writeMidi } from './write/index.js';
