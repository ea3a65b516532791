// The front door: bytes and text in; bytes, notes and diagnostics out. What lies between is in keyslip/stages.
export {
  type CheckMapOptions,
  type CheckMapResult,
  type CompileOptions,
  type CompileResult,
  checkMap,
  compile,
  type GivenMap,
  type InspectOptions,
  type InspectResult,
  inspect,
  type MusicOptions,
  type ProveOptions,
  type ProveResult,
  prove,
  type SheetOptions,
  type SheetResult,
  sheet,
  type TimingChoice,
} from './api/index.js';
export {
  type CodeMeaning,
  codes,
  type Diagnostic,
  type DiagnosticCode,
  formatDiagnostic,
  type Place,
  type Severity,
} from './diagnostics/index.js';
export type { ArticulationMap } from './map/index.js';
export type { PartProof, Violation, ViolationKind } from './prove/index.js';
export type { Report, ReportNote } from './report/index.js';
export type { GridWidth, RollOrder, TimingOptions } from './timing/index.js';
