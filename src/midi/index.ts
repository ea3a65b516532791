// Standard MIDI Files: bytes to songs and back, ticks as time and bars, notes and parts.

export { type BarRange, barRangesOf, formatBars, formatBarsUpTo } from './bar-range.js';
export {
  barFinder,
  beatAt,
  type Clock,
  clockOf,
  lastOfEachTick,
  type Position,
  signatureAt,
  tempoAt,
  timesOf,
} from './clock/index.js';
export { type Duration, isAtLeast, tickAfter, tickBefore } from './duration.js';
export * from './events/index.js';
export { partHeading, partInText } from './heading.js';
export { indicesInOrder } from './in-order.js';
export type { ControllerValues, Line, MeasuredNote, Onset, PairedNote, Part, Span } from './line.js';
export { type MusicLocation, musicPlace } from './location.js';
export { type NewTrack, newSong } from './new-song.js';
export {
  keptNotes,
  type Notes,
  noNotes,
  noteAt,
  noteEnd,
  noteTick,
  offOf,
  onOf,
  pitchOf,
  velocityOf,
} from './notes/notes.js';
export { firstNote, groupOnsets, type Onsets, onsetsOf, struckTogether, topNote } from './notes/onsets.js';
export { OpenNotes } from './notes/open-notes.js';
export { type PairedColumns, pairNotes } from './notes/pair.js';
export { partsOf } from './notes/parts.js';
export { StandIn } from './notes/stand-in.js';
export { notesWithin } from './notes/within.js';
export {
  bankLsb,
  bankMsb,
  firstChannelMode,
  isSystemOn,
  resetControllers,
  silencing,
  sustain,
} from './protocol.js';
export { decodedText, isMidi, readMidi, trackName } from './read/index.js';
export type { Chunk, Division, Song } from './song.js';
export { finder, lastAtMost, lastWithin } from './sorted.js';
export { endless, msBetween, nothing, roundedMs, spanBetween } from './span.js';
export { type Track, trackOf } from './track.js';
export { withTracks } from './with-tracks.js';
export {
  newFile,
  type TrackChange,
  timeProblem,
  trackChunk,
  type UnwritableTime,
  writeMidi,
} from './write/index.js';
