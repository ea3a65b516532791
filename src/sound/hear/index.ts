// What the compiled music sounds like: parts in real time and a bank of sounds become a stereo sound.
export {
  type BankKind,
  bankEndings,
  bankLimit,
  bankPlaces,
  checkBank,
  preferredBanks,
} from './bank/index.js';
export { clicksUpTo, compiledToHear, lateness, playedToHear } from './from-compiled.js';
export { passOn } from './from-wav.js';
export { ceiling, type Heard, type HearOutput, hear } from './hear.js';
export { oggQuality, oggSink } from './ogg.js';
export { type HearCode, type HearProblem, hearCodes, type Result } from './problem.js';
export type { Block, RenderProgress } from './render.js';
export { memorySpool, type Spool } from './spool.js';
export type { Substitute } from './synth/spessa.js';
export type {
  HearArticulation,
  HearBend,
  HearClick,
  HearController,
  HearNote,
  HearOptions,
  HearPart,
  PlainArticulation,
  StandIn,
} from './types.js';
export { type ByteSink, fitsWav, type SampleFormat, type WavSink, wavSink } from './wav.js';
