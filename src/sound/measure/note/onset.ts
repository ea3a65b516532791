import { decibelsOf, firstRise, hannSmoothed, type StereoPower, totalPower } from '../../signal/index.js';

/** When a note is heard to begin, from its note-on. Unit: ms. */
export interface Onset {
  /** Where it has risen to 12 dB below how loud it is. */
  readonly at: number;
  /** The same for 15 and 6 dB: what another definition of the onset would say. */
  readonly early: number;
  readonly late: number;
}

/** What a note's envelope tells. */
export interface Envelope {
  /** Smoothed power of both channels, K-weighted. Unit: dB. */
  readonly levels: Float64Array;
  /** Unit: seconds. */
  readonly step: number;
  /** The note-on, from the first step. Unit: seconds. */
  readonly noteOn: number;
  /** How loud its beginning is: its loudest 200 ms in the first 0.8 s of its sound. Unit: dB. */
  readonly reference: number;
  /** Its loudest. Unit: dB. */
  readonly loudest: number;
  /** Mean level of the 150 ms before. Unit: dB. */
  readonly before: number;
}

/**
 * The thresholds of the perceived onset. Vos & Rasch (1981), "The perceptual onset of musical tones", Perception &
 * Psychophysics 29: a tone is heard to begin where its envelope passes a level of about 6 to 15 dB below its maximum
 * (from memory).
 */
const thresholds = { early: -15, at: -12, late: -6 } as const;

/** Notes less far above what was before them are not trusted. Unit: dB. */
const leastRise = 20;

/** The search begins here: smoothing spreads a sudden onset by half the window. Unit: seconds. */
const searchFrom = -0.01;
/**
 * How loud a note is, which its thresholds lie below: its loudest 200 ms in the first 0.8 s of its sound. Over about so long
 * the ear adds sound up (Zwislocki 1960, "Theory of temporal auditory summation", JASA 32, from memory); a pulse of a
 * tremolo, or a partial that a room favours, hardly moves it, and a note that swells is not heard to begin at its swell.
 * Counted from where the sound begins, and not from its note-on, since a delay changes nothing of a sound. Unit: seconds.
 */
const loudness = { window: 0.2, within: 0.8 } as const;

/**
 * Where a sound is taken to begin at first: so far below its loudest 200 ms, and so far out of what was before it. Then its
 * onset tells. Unit: dB.
 */
const roughly = { below: 30, above: 6 } as const;

/** Two periods of the pitch, within limits. Unit: seconds. */
export function windowOf(pitch: number): number {
  const frequency = frequencyOf(pitch);
  return Math.max(0.01, Math.min(0.04, 2 / frequency));
}

/** Equal temperament, A = 440 Hz at note 69. Unit: Hz. */
export function frequencyOf(pitch: number): number {
  return 440 * 2 ** ((pitch - 69) / 12);
}

/**
 * @param noteOn from the first step. Unit: seconds
 * @param held how long its key is held. Unit: seconds
 */
export function envelopeOf(power: StereoPower, pitch: number, noteOn: number, held: number): Envelope {
  const { step } = power;
  const total = totalPower(power);
  const levels = decibelsOf(hannSmoothed(total, windowOf(pitch) / step));
  const index = (time: number) => Math.max(0, Math.round((noteOn + time) / step));
  const before = total.subarray(index(-0.16), index(-0.01));
  const mean = before.reduce((sum, value) => sum + value, 0) / Math.max(1, before.length);
  const [from, to] = [index(searchFrom), index(held + 0.2)];
  const level = decibelsOf([mean])[0] ?? 0;
  return {
    levels,
    step,
    noteOn,
    reference: loudnessOf({ total, levels, step, before: level }, from, to),
    loudest: highest(levels.subarray(from, to)),
    before: level,
  };
}

/** A sound's power, and its level where it is heard to begin. */
interface Sound extends Pick<Envelope, 'levels' | 'step' | 'before'> {
  readonly total: ArrayLike<number>;
}

/**
 * How loud a sound is that begins somewhere between two steps: its loudest 200 ms in its first 0.8 s. Unit: dB.
 *
 * @param from a sound that is there already is taken to begin here
 */
export function loudnessOf({ total, levels, step, before }: Sound, from: number, to: number): number {
  const added = decibelsOf(hannSmoothed(total, loudness.window / step));
  const within = Math.round(loudness.within / step);
  const since = (threshold: number) => {
    const begin = Math.round(firstRise(levels, threshold, from) ?? from);
    return highest(added.subarray(begin, begin + within));
  };
  const whole = highest(added.subarray(from, to));
  const first = since(Math.max(whole - roughly.below, before + roughly.above));
  return since(first + thresholds.at);
}

/** Whether anything sounds at all: more than 6 dB above what was before. */
export function isSilent({ loudest, before }: Envelope): boolean {
  return loudest < -120 || loudest < before + 6;
}

/** The onset of a note; undefined where it does not stand out from what was before it. */
export function onsetOf({ levels, step, noteOn, reference, before }: Envelope): Onset | undefined {
  if (!(reference >= before + leastRise)) return undefined;
  const from = Math.max(0, Math.round((noteOn + searchFrom) / step));
  const crossing = (below: number) => {
    // A step stands for its middle.
    const at = firstRise(levels, reference + below, from);
    return at === undefined ? undefined : ((at + 0.5) * step - noteOn) * 1000;
  };
  const [early, at, late] = [crossing(thresholds.early), crossing(thresholds.at), crossing(thresholds.late)];
  return early === undefined || at === undefined || late === undefined ? undefined : { early, at, late };
}

function highest(levels: Float64Array): number {
  return levels.reduce((most, level) => Math.max(most, level), Number.NEGATIVE_INFINITY);
}
