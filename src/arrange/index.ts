// Music before it is played: chords set to a rhythm, and laid out for parts.
export { chordsOfStrokes, type Struck } from './anticipate.js';
export { type Arranged, type SymbolsText, setSong, voiceSong } from './files.js';
export { type ChordsSet, type SetOptions, setChords } from './set.js';
export { harmonicsOf, voiceSketch } from './sketch.js';
export { chordsOfSketch, type Slice, type SliceNote, slicesOf } from './slices.js';
export { strokesOf } from './strokes.js';
export { chordsOfSymbols, type SymbolsRead } from './symbols.js';
export type { ArrangedNote, ArrangePlace, ArrangeRemark, Chord, SketchNote, Stroke } from './types.js';
export {
  costs,
  type Harmonic,
  mostSearched,
  type PitchSpan,
  type Voiced,
  type VoicedPart,
  type VoiceOptions,
  type VoicePart,
  voiceChords,
} from './voice/index.js';
