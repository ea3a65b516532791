// Standard MIDI Files: bytes to songs and back, ticks as time and bars, notes and parts.

export { type BarRange, formatBars, formatBarsUpTo } from './bar-range.js';
export { type Clock, clockOf } from './clock/index.js';
export { type Duration, isAtLeast, tickAfter, tickBefore } from './duration.js';
export { partHeading } from './heading.js';
export type { ControllerValues, Line, MeasuredNote, Onset, PairedNote, Part, Span } from './line.js';
export { type MusicLocation, musicPlace } from './location.js';
export { groupOnsets } from './notes/onsets.js';
export { type Pairing, pairNotes } from './notes/pair.js';
export { partsOf } from './notes/parts.js';
export {
  bankLsb,
  bankMsb,
  controllerEvent,
  firstChannelMode,
  isSystemOn,
  resetControllers,
  silencing,
  sustain,
} from './protocol.js';
export { readMidi } from './read/index.js';
export type { Chunk, Division, MidiEvent, Song, Track } from './song.js';
export { finder, lastAtMost, lastWithin } from './sorted.js';
export { endless, msBetween, nothing, spanBetween } from './span.js';
export { trackChunk, writeMidi } from './write/index.js';
