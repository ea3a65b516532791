import type { Segment } from './segments.js';
import { PitchSums, type Span } from './spans.js';

/** What sounds over a segment, with the bass that carries it. */
export interface Stretch extends Span {
  /** The pitch that carries the stretch from below. */
  readonly bass: number;
}

/** A pitch that comes in later is the bass if it lies at least so far below, and sounds at least for this share. */
const farBelow = 12;
const carries = 0.25;

/** Puts the spans of a segment together. null where nothing sounds. */
export function stretchOf(spans: readonly Span[], { from, to }: Segment): Stretch | null {
  const within = spans.slice(from, to);
  const [first] = within;
  const last = within.at(-1);
  const start = within.find(({ pitches }) => pitches.length > 0);
  if (!first || !last || !start) return null;
  const length = last.endTick - first.tick;
  const sums = new PitchSums();
  for (const { tick, endTick, pitches } of within)
    for (const { pitch, share, weight } of pitches)
      sums.add(pitch, share * (endTick - tick), weight * (endTick - tick));
  const pitches = sums.takeOver(length);
  return { tick: first.tick, endTick: last.endTick, pitches, bass: bassOf(start, pitches) };
}

/** The lowest pitch at the start, which those that pass below do not displace; unless the bass enters later. */
function bassOf(start: Span, pitches: Span['pitches']): number {
  const most = start.pitches.reduce((share, { weight }) => Math.max(share, weight), 0);
  const lowest = start.pitches.find(({ weight }) => weight >= most / 2)?.pitch ?? 0;
  const below = pitches.find(({ pitch, share }) => pitch <= lowest - farBelow && share >= carries);
  return below?.pitch ?? lowest;
}

/** For each pitch class the share of a stretch through which it sounds, at most 1. */
export function classShares({ pitches }: Span, of: 'share' | 'weight'): readonly number[] {
  const classes = new Array<number>(12).fill(0);
  for (const pitch of pitches) {
    const pitchClass = pitch.pitch % 12;
    classes[pitchClass] = Math.min(1, (classes[pitchClass] ?? 0) + pitch[of]);
  }
  return classes;
}
