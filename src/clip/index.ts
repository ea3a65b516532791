// Music as a MIDI 2.0 clip file: every note carries its articulation, for players that understand it.
export { clipFile } from './file.js';
export { type ClipOfSong, clipOfSong, type SoundingPart } from './from-song.js';
export { scaleUp } from './scale.js';
export type { Clip, ClipMessage, ClipNote, ClipPart, ClipRemark, WrittenClip } from './types.js';
export { writeClip } from './write.js';
