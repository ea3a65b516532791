// Written scores: MusicXML and MEI in, a played performance and its Standard MIDI File with marks out.

export * from './align/index.js';
export type { ScoreLimits } from './limits.js';
export { writePerformance } from './midi/index.js';
export type * from './model.js';
export * as names from './names.js';
export { type WrittenSong, withOrnaments } from './ornamented.js';
export { type PlayedScore, playScore, scoreToMidi } from './performed.js';
export type {
  Performance,
  PlacedText,
  PlayedBar,
  PlayedNote,
  PlayedOrnament,
  PlayedPart,
  PlayOptions,
} from './play/index.js';
export { type ReadScore, readScore } from './read.js';
export { isScore, type MusicLimits, readSong } from './song.js';
