// Learns a map's rules from notes whose articulation is known, and says what a take would make of a map's bounds.

export { type ExampleNote, findExamples, type LearnedExample } from './examples.js';
export type { Exception, Stretch } from './exceptions.js';
export type { Feature, Key, Unit } from './features.js';
export type { HeldOut } from './folds.js';
export type { Ladder, Rule, Test } from './ladder.js';
export {
  type Accuracy,
  type Learned,
  type LearnOptions,
  learn,
  type RuleFinding,
  type Verdict,
} from './learn.js';
export type { Lengthened } from './lengthened.js';
export { mapText, NotASketch } from './map-text.js';
export type { LearnNotes, LearnPiece } from './notes.js';
export { reportText, type Words } from './report-text.js';
export { steadyRules } from './steadiness.js';
export * from './suggest/index.js';
export {
  agreementWith,
  columnsOf,
  type LearnedTracks,
  type LearnLine,
  learnedJson,
  learnTracks,
  lengthsOf,
  nothingLearned,
  type SwitchedPart,
  suggestFor,
  type WrittenMap,
  withSomeRule,
  writtenMap,
} from './tracks/index.js';
