import type { MeasuredArticulation, MeasureResult } from '../../../src/sound/measure/index.js';

const sustain: MeasuredArticulation = {
  speaksAfterMs: 86.4,
  uncertaintyMs: 40,
  crossingsMs: { at15: 60, at6: 140 },
  spreadMs: 12,
  used: 15,
  rejected: 1,
  steps: [
    { when: { 'overlaps-previous': true }, isMs: 140.2, spreadMs: 4, used: 4 },
    { when: { pitch: { to: 54 } }, isMs: 99.6, spreadMs: 3, used: 8 },
    { when: null, isMs: 70.1, spreadMs: 5, used: 8 },
  ],
  length: { ms: 3300, followsKey: true, rings: false },
  silentKeys: [71, 72],
};

const staccato: MeasuredArticulation = {
  speaksAfterMs: 11.8,
  uncertaintyMs: 6,
  crossingsMs: { at15: 6, at6: 18 },
  spreadMs: 2,
  used: 16,
  rejected: 0,
  length: { ms: 240, followsKey: false, rings: true },
  silentKeys: [],
};

/** An invented result. */
export const result: MeasureResult = {
  format: 'keyslip-measure/1',
  bounce: {
    sampleRate: 48_000,
    bits: 24,
    encoding: 'integer',
    startSeconds: 0.25,
    driftPpm: 0.04,
    clicks: 'both',
    noise: -82.3,
    plan: { quick: false, room: true },
  },
  articulations: {
    sustain,
    staccato,
    unheard: {
      ...staccato,
      speaksAfterMs: null,
      uncertaintyMs: null,
      crossingsMs: null,
      used: 0,
      rejected: 16,
    },
  },
  levels: [
    { controller: 1, value: 20, dB: -50 },
    { controller: 1, value: 127, dB: -20 },
  ],
  velocities: [
    { articulation: 'staccato', velocity: 20, dB: -48 },
    { articulation: 'staccato', velocity: 127, dB: -22 },
  ],
  marks: [
    { mark: 'pp', value: 14, dB: -52, isReached: true },
    { mark: 'p', value: 33, dB: -45, isReached: true },
    { mark: 'mp', value: 50, dB: -40, isReached: true },
    { mark: 'mf', value: 72, dB: -36.06, isReached: true },
    { mark: 'f', value: 127, dB: -33, isReached: true },
    { mark: 'ff', value: 127, dB: -33, isReached: false },
  ],
  referenceLevel: -36.06,
  seat: -0.304,
  width: 0.618,
  pan: [
    { value: 1, dB: -6 },
    { value: 127, dB: 5.5 },
  ],
  alike: [],
  doubts: [{ about: 'sustain', text: 'it rises slowly\u001b[31m' }],
};
