import type { Clock } from '../midi/index.js';
import type { Chord, Stroke } from './types.js';

/** How far players come early for a change that they mean, and late. Unit: ms (common practice, no source). */
const early = 50;
const late = 80;
/** An early stroke uses at most this share of the chord before. */
const shareOfChord = 0.3;

/** Without beats an eighth is taken to be as long as at 120 quarters a minute. Unit: ms. */
const eighthWithoutBeats = 250;

/** Which chord a stroke strikes. */
export interface Struck {
  /** Index of the chord. */
  readonly chord: number;
  /** It sounds before its chord's place: played early, or written so. */
  readonly ahead: 'early' | 'anticipation' | null;
}

/**
 * The chord of each stroke: the one that holds at its place, except that a stroke ahead of a change goes with the chord
 * that it leads to where
 *
 * 1. it is early: at most 50 ms before the change, and in the last third of the chord before; or
 * 2. it takes the change's place: it is the last stroke before the change, none falls on the change itself (50 ms early
 *    to 80 ms late), it does not fall on the beginning of the chord before, and it either comes no more than an eighth
 *    before the change, or less than a quarter and sounds longer behind the change than before it.
 *
 * So an off-beat that is tied over the bar line, or followed by silence on the beat, has the new harmony, and a pickup
 * before a stroke on the beat has the old one. Strokes ahead of all chords strike the first. (Common practice, no
 * source; the figures are this project's own.)
 *
 * @param strokes and chords in order of tick; at least one chord
 */
export function chordsOfStrokes(
  strokes: readonly Stroke[],
  chords: readonly Chord[],
  clock: Pick<Clock, 'ms' | 'ticksPerWhole'>,
): readonly Struck[] {
  let chord = 0;
  return strokes.map((stroke, index) => {
    for (let next = chords[chord + 1]; next && next.tick <= stroke.tick; next = chords[chord + 1]) chord += 1;
    const [own, next] = [chords[chord], chords[chord + 1]];
    if (!own || !next || stroke.tick < own.tick) return { chord, ahead: null };
    const ahead = aheadOf(stroke, strokes[index + 1], { own, next }, clock);
    return { chord: ahead === null ? chord : chord + 1, ahead };
  });
}

function aheadOf(
  stroke: Stroke,
  following: Stroke | undefined,
  { own, next }: { readonly own: Chord; readonly next: Chord },
  clock: Pick<Clock, 'ms' | 'ticksPerWhole'>,
): Struck['ahead'] {
  const ms = (from: number, to: number) => clock.ms(to) - clock.ms(from);
  const before = ms(stroke.tick, next.tick);
  if (before <= early && before <= shareOfChord * ms(own.tick, next.tick)) return 'early';
  const onChange = following !== undefined && ms(next.tick, following.tick) <= late;
  if (onChange || ms(own.tick, stroke.tick) <= late) return null;
  const eighth =
    clock.ticksPerWhole === null
      ? eighthWithoutBeats
      : ms(stroke.tick, stroke.tick + clock.ticksPerWhole / 8);
  if (before <= eighth + early) return 'anticipation';
  const behind = ms(next.tick, stroke.endTick);
  return before < 2 * eighth && behind > before ? 'anticipation' : null;
}
