// Measuring a sample library: a probe that plays everything that has to be known, and what its bounce tells.
export type { OpenSound } from './bounce/open.js';
export {
  type Change,
  type EditedMap,
  type NotWritten,
  type Writable,
  writable,
  writeMeasured,
} from './edit/index.js';
export { type ProbedArticulation, type ProbedLibrary, probedLibrary } from './library.js';
export { measureBounce } from './measure.js';
export { clickTrack } from './plan/click.js';
export { type ProbeOptions, type ProbePlan, type ProbeSlot, possiblePlans, probePlan } from './plan/index.js';
export { probeSong } from './plan/song.js';
export { type Probe, probe } from './probe.js';
export type {
  Alike,
  ControllerLevel,
  Doubt,
  MarkValue,
  MeasuredArticulation,
  MeasuredStep,
  MeasureResult,
  StepCondition,
  VelocityLevel,
} from './result.js';
export { measureText } from './text/index.js';
