/** Types of meta events (Standard MIDI File 1.0). */
export const metaTypes = {
  text: 0x01,
  trackName: 0x03,
  lyric: 0x05,
  marker: 0x06,
  cuePoint: 0x07,
  /** Types from 1 to this one are texts. */
  lastText: 0x0f,
  channelPrefix: 0x20,
  port: 0x21,
  endOfTrack: 0x2f,
  tempo: 0x51,
  smpteOffset: 0x54,
  timeSignature: 0x58,
  keySignature: 0x59,
  ofMaker: 0x7f,
} as const;

/** Those that may carry marks, or words for people. */
export const wordTypes: ReadonlySet<number> = new Set([
  metaTypes.text,
  metaTypes.lyric,
  metaTypes.marker,
  metaTypes.cuePoint,
]);
