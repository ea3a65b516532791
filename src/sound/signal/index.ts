// Sound files and what is measured in them: WAV in and out, loudness, envelopes. Numbers only; it knows no maps.
export { type Biquad, bandPass, type Filter, filterOf } from './biquad.js';
export { decibelsOf, firstRise, hannSmoothed } from './envelope.js';
export { kWeighting } from './k-weighting.js';
export { type LoudnessMeter, loudnessMeter, loudnessOfPower, powerOfLoudness } from './loudness.js';
export { meanPower, type PowerSum, type StereoPower, stereoPower, totalPower } from './power.js';
export { median, quantile, spread } from './statistics.js';
export { type WavCode, WavError, wavCodes } from './wav/error.js';
export type { WavFormat } from './wav/format.js';
export { type FrameRange, openWav, requireStereo, type Slice, type Wav } from './wav/read.js';
export { type WavTarget, type WavWriter, wavBytes, wavWriter } from './wav/write.js';
