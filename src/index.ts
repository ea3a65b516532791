/**
 * keyslip as a library: read → analyse → decide → placeSwitches → write, each a pure function over plain data.
 */
export { runExamples } from './compile/examples.js';
export { compareMaps } from './compare/index.js';
export {
  type Compiled,
  type CompiledPart,
  compile,
  type Job,
  type CompiledParts,
  compileParts,
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
export { decide } from './compile/decide/index.js';
export { codes, type DiagnosticCode } from './diagnostics/codes.js';
export { formatDiagnostic } from './diagnostics/format.js';
export { type Report, type ReportNote, report } from './report/decisions.js';
export { harmonyOf, soundingNotes } from './music/harmony/index.js';
export type { Cue, CueDynamics, CueLayer, CuePart } from './cue/types.js';
export type { Decision } from './compile/decide/decision.js';
export type { Diagnostic, Outcome, Place, Severity } from './diagnostics/diagnostic.js';
export type { Chord, Harmony, Key, SoundingNote } from './music/harmony/types.js';
export type { Line, MeasuredNote, Onset, Part, Span } from './midi/line.js';
export type * from './map/types.js';
export type { Chunk, Division, MidiEvent, Song, Track } from './midi/song.js';
export { readCue } from './cue/read/index.js';
export { readMap } from './map/read/index.js';
export { readMidi } from './midi/read/index.js';
export { registerOf } from './music/register/index.js';
export type { Clock } from './midi/clock/clock.js';
export { clockOf } from './midi/clock/index.js';
export { partsOf, analyse } from './compile/analyse/index.js';
export { voicingOf } from './music/voicing/index.js';
export { writeMidi } from './midi/write/index.js';
