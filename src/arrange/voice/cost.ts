import type { ChordToVoice } from './chords.js';
import type { Voice, VoiceOptions } from './types.js';

/**
 * What a layout costs, in hundredths of a semitone that one voice moves. Own choice throughout, after the common
 * practice of part writing: which tones may be left out or doubled, how wide voices lie, where a part sounds best.
 */
export const costs = {
  /** A tone of the chord that no voice has. */
  missing: { root: 800, third: 1200, fifth: 200, seventh: 700, added: 400 },
  /** Each time that a tone sounds beyond the first. */
  doubled: { root: 0, fifth: 50, third: 250, seventh: 500, added: 500 },
  /** Two voices on one pitch: of two parts, and of one part, whose divisi would be none. */
  unison: 150,
  unisonInPart: 900,
  /** Three neighbouring upper voices that are not in the position that was asked for. */
  otherPosition: 300,
  /** Open: a neighbouring interval that is no fourth, fifth or octave; and one wider than that below it. */
  notOpen: 60,
  widerAbove: 60,
  /** Open: each semitone by which the lowest interval falls short of a fifth. */
  narrowBelow: 100,
  /** Close: each semitone of a neighbouring upper interval beyond a fourth. */
  wide: 50,
  /** Each semitone outside a part's register; and, so that equal layouts do not drift, off its middle. */
  outsideRegister: 100,
  offMiddle: 4,
  /** What no layout is to have, and has only where there is no other: see `faultsOf`. */
  fault: 5000,
  /** A voice's movement, each semitone; the lowest voice leaps more freely. The tune moves as it will. */
  moved: 100,
  movedLowest: 50,
  /** A leap of more than a fifth in another voice than the lowest. */
  leap: 200,
  leapBeyond: 7,
} as const;

/** Layouts are pitches of voices, low voices first; a resting voice is left out of what is looked at here. */
const octave = 12;

/** What a layout costs by itself. */
export function layoutCost(
  pitches: readonly number[],
  voices: readonly Voice[],
  chord: ChordToVoice,
  options: VoiceOptions,
): number {
  return (
    tonesCost(pitches, chord) +
    unisonCost(pitches, voices) +
    spacingCost(distinct(pitches), options) +
    pitches.reduce((sum, pitch, index) => sum + registerCost(pitch, voices[index]), 0)
  );
}

function tonesCost(pitches: readonly number[], { tones, tuneOnly }: ChordToVoice): number {
  let sum = 0;
  for (const [pitchClass, tone] of tones) {
    const count = pitches.filter((pitch) => pitch % 12 === pitchClass).length;
    if (count > 1) sum += (count - 1) * costs.doubled[tone];
    else if (count === 0 && !tuneOnly.has(pitchClass)) sum += costs.missing[tone];
  }
  return sum;
}

function unisonCost(pitches: readonly number[], voices: readonly Voice[]): number {
  let sum = 0;
  pitches.forEach((pitch, index) => {
    const other = pitches.indexOf(pitch);
    if (other === index) return;
    sum += voices[other]?.part === voices[index]?.part ? costs.unisonInPart : costs.unison;
  });
  return sum;
}

/** @param heights rising, each once */
function spacingCost(heights: readonly number[], { position }: VoiceOptions): number {
  const upper = heights.length === 3 ? heights : heights.slice(1);
  let sum = 0;
  for (const [index, top] of upper.slice(2).entries()) {
    const isClose = top - (upper[index] ?? top) < octave;
    if (isClose !== (position === 'close')) sum += costs.otherPosition;
  }
  const gaps = heights.slice(1).map((pitch, index) => pitch - (heights[index] ?? pitch));
  return sum + (position === 'close' ? closeCost(gaps) : openCost(gaps));
}

function closeCost([, ...upper]: readonly number[]): number {
  return upper.reduce((sum, gap) => sum + costs.wide * Math.max(0, gap - 5), 0);
}

function openCost(gaps: readonly number[]): number {
  const [lowest = octave] = gaps;
  let sum = costs.narrowBelow * Math.max(0, 7 - lowest);
  gaps.forEach((gap, index) => {
    if (gap !== 5 && gap !== 7 && gap !== octave) sum += costs.notOpen;
    if (index > 0 && gap > (gaps[index - 1] ?? gap)) sum += costs.widerAbove;
  });
  return sum;
}

/** What a voice's pitch costs by where it lies. */
export function registerCost(pitch: number, voice: Voice | undefined): number {
  if (!voice) return 0;
  const { low, high } = voice.register;
  const outside = Math.max(0, low - pitch, pitch - high);
  return costs.outsideRegister * outside + Math.round(costs.offMiddle * Math.abs(pitch - (low + high) / 2));
}

/** What it costs one voice to move. */
export function movementCost(from: number, to: number, isLowest: boolean): number {
  const moved = Math.abs(to - from);
  if (isLowest) return costs.movedLowest * moved;
  return costs.moved * moved + (moved > costs.leapBeyond ? costs.leap : 0);
}

/** Rising, each once. */
export function distinct(pitches: readonly number[]): readonly number[] {
  const isRising = pitches.every((pitch, index) => index === 0 || pitch >= (pitches[index - 1] ?? pitch));
  const rising = isRising ? pitches : [...pitches].sort((a, b) => a - b);
  return rising.filter((pitch, index) => pitch !== rising[index - 1]);
}
