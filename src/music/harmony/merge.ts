import { setOf } from './class-set.js';
import { type PitchColumns, PitchSums } from './pitch-sums.js';
import type { Segment } from './segments.js';
import { firstPitch, isSilent, type Spans, spanEnd, spanTick } from './spans.js';

/** What sounds over a segment, with the bass that carries it. */
export interface Stretch {
  readonly tick: number;
  readonly endTick: number;
  /** The pitch that carries the stretch from below. */
  readonly bass: number;
  /** For each pitch class the share of the time through which it sounds, at most 1; what passes counts less. */
  readonly weights: readonly number[];
  /** The pitch classes that are told as sounding, as a set. */
  readonly classes: number;
  /** Whether fourths stand on the bass. */
  readonly stacked: boolean;
}

/** A pitch that comes in later is the bass if it lies at least so far below, and sounds at least for this share. */
const farBelow = 12;
const carries = 0.25;
/** A tone that sounds for a smaller share of a stretch is not told as sounding in it. */
const leastShare = 0.05;

/** Empty between one stretch and the next. */
const sums = new PitchSums();

/** Puts the spans of a segment together. null where nothing sounds. */
export function stretchOf(spans: Spans, { from, to }: Segment): Stretch | null {
  let start = from;
  while (start < to && isSilent(spans, start)) start += 1;
  if (start === to) return null;
  const tick = spanTick(spans, from);
  const endTick = spanEnd(spans, to - 1);
  for (let span = from; span < to; span++) {
    const ticks = spanEnd(spans, span) - spanTick(spans, span);
    for (let at = firstPitch(spans, span); at < firstPitch(spans, span + 1); at++)
      sums.add(spans.pitch[at] ?? 0, (spans.share[at] ?? 0) * ticks, (spans.weight[at] ?? 0) * ticks);
  }
  const pitches: PitchColumns = { pitch: [], share: [], weight: [] };
  sums.moveTo(pitches, endTick - tick);
  const bass = bassOf(spans, start, pitches);
  return {
    tick,
    endTick,
    bass,
    weights: inClasses(pitches.pitch, pitches.weight),
    classes: toldClasses(pitches),
    stacked: hasFourths(pitches.pitch, bass % 12),
  };
}

/** The lowest pitch at the start, which those that pass below do not displace; unless the bass enters later. */
function bassOf(spans: Spans, start: number, { pitch, share }: PitchColumns): number {
  const [first, end] = [firstPitch(spans, start), firstPitch(spans, start + 1)];
  let most = 0;
  for (let at = first; at < end; at++) most = Math.max(most, spans.weight[at] ?? 0);
  let lowest = first;
  while (lowest < end && (spans.weight[lowest] ?? 0) < most / 2) lowest += 1;
  const carrying = spans.pitch[lowest] ?? 0;
  const below = pitch.findIndex((one, at) => one <= carrying - farBelow && (share[at] ?? 0) >= carries);
  return pitch[below] ?? carrying;
}

function inClasses(pitch: readonly number[], shares: readonly number[]): readonly number[] {
  const classes = new Array<number>(12).fill(0);
  pitch.forEach((one, at) => {
    classes[one % 12] = Math.min(1, (classes[one % 12] ?? 0) + (shares[at] ?? 0));
  });
  return classes;
}

function toldClasses({ pitch, share }: PitchColumns): number {
  const shares = inClasses(pitch, share);
  return setOf([...shares.keys()].filter((pitchClass) => (shares[pitchClass] ?? 0) >= leastShare));
}

/** Whether a fourth upon a fourth stands on the bass, or on its octave, with nothing between. */
function hasFourths(pitches: readonly number[], bass: number): boolean {
  return pitches.some((pitch, index) => {
    const [next, last] = [pitches[index + 1], pitches[index + 2]];
    return pitch % 12 === bass && next === pitch + 5 && last === pitch + 10;
  });
}
