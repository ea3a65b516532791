// Finds a written score in a played take, and writes the score's marks where they were played.
export { align } from './align.js';
export { alignChords } from './chordwise.js';
export type { Edit } from './edits.js';
export { type AlignLimits, type MarkedTake, markSong, markTake, type NamedFile } from './mark.js';
export {
  type Alignment,
  alignmentOf,
  chordsOf,
  type Pair,
  type TakenNote,
  type WrittenNote,
} from './notes.js';
export { type OrnamentedNote, withOrnamental } from './ornamental.js';
export { refine } from './refine.js';
export type { Unmatched } from './unmatched.js';
