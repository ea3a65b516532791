// From tracks with switches in them to a map with rules; from a take to what bounds would give.
export { columnsOf, type LearnLine } from './columns.js';
export { learnedJson } from './json.js';
export { withSomeRule } from './sketch.js';
export { lengthsOf, suggestFor } from './take.js';
export {
  agreementWith,
  type LearnedTracks,
  learnTracks,
  nothingLearned,
  type SwitchedPart,
  type WrittenMap,
  writtenMap,
} from './tracks.js';
