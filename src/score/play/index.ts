// Plays a written score: repeats made, ties joined, grace notes and swing given their time, loudness and marks carried.
import type { Findings } from '../diagnostic.js';
import type { Score } from '../model.js';
import { withCodaJumps } from './coda.js';
import { playOrder, type Step } from './order.js';
import { playPart } from './part.js';
import type { Performance, PlayedPart } from './performance.js';
import { playedOut } from './played-out.js';
import { swinger } from './swing.js';
import { barsOf, countNotes, unfold } from './timeline.js';

export type {
  Performance,
  PlacedText,
  PlayedBar,
  PlayedNote,
  PlayedOrnament,
  PlayedPart,
} from './performance.js';
export { type HasSound, playedOut } from './played-out.js';

export interface PlayOptions {
  /** Whether repeats and jumps are made; true where it is not given. Without, each bar is played once. */
  readonly repeats?: boolean;
  /** Ornaments as notes, or each as one note with its mark, as where it is not given. */
  readonly ornaments?: 'played' | 'marked';
}

/** @returns undefined where the score is too long, which is reported */
export function play(
  score: Score,
  found: Findings,
  maxNotes: number,
  { repeats = true, ornaments = 'marked' }: PlayOptions = {},
): Performance | undefined {
  const measures = withCodaJumps(score.measures);
  const steps = repeats
    ? (score.order?.map(inPass()) ?? playOrder(measures, found))
    : measures.map((_, measure) => ({ measure, pass: 1, until: null }));
  const count = countNotes(score, steps);
  if (count > maxNotes) {
    tooMany(count, maxNotes, found);
    return undefined;
  }
  const bars = barsOf(steps, measures);
  const last = bars.at(-1);
  const endTick = last ? last.tick + last.length : 0;
  const swing = swinger(unfold(score.swings, bars));
  const tempi = unfold(score.tempi, bars).map(({ item, tick }) => ({
    tick,
    quartersPerMinute: item.quartersPerMinute,
  }));
  const room = { left: maxNotes };
  const stage = {
    ppq: score.ppq,
    bars,
    endTick,
    swing,
    found,
    ticksPerSecondAt: pace(tempi, score.ppq),
    room,
  };
  const parts = score.parts.map((part, index) => playPart(part, channelOf(part, index), stage));
  if (room.left < 0) {
    tooMany(count + maxNotes, maxNotes, found);
    return undefined;
  }
  if (!fits(parts, endTick)) {
    const message = `the score has ${parts.length} parts and ${endTick} ticks, and a MIDI file can have ${mostParts} and ${mostTicks}`;
    found.error('score-too-large', undefined, message, 'see durations and divisions');
    return undefined;
  }
  const performance = { title: score.title, ppq: score.ppq, bars, tempi, parts, endTick };
  return ornaments === 'played' ? playedOut(performance, () => false) : performance;
}

/** Bars in an order that is told: each time that one is played is another pass. */
function inPass(): (measure: number) => Step {
  const passes = new Map<number, number>();
  return (measure) => {
    const pass = (passes.get(measure) ?? 0) + 1;
    passes.set(measure, pass);
    return { measure, pass, until: null };
  };
}

/** Before any tempo: 120 (Standard MIDI File 1.0). */
const usualTempo = 120;

function pace(tempi: Performance['tempi'], ppq: number): (tick: number) => number {
  return (tick) => {
    let low = 0;
    let high = tempi.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((tempi[middle]?.tick ?? 0) <= tick) low = middle + 1;
      else high = middle;
    }
    return ((tempi[low - 1]?.quartersPerMinute ?? usualTempo) * ppq) / 60;
  };
}

function tooMany(count: number, maxNotes: number, found: Findings): void {
  found.error(
    'score-too-large',
    undefined,
    `with all repeats and ornaments the score has ${count} notes or more, and the limit is ${maxNotes}`,
    'see the times of its repeats, and its tremolos',
  );
}

/** What a Standard MIDI File can say: 16 bits for its tracks, 28 for a time. */
const mostParts = 0xfffe;
const mostTicks = 0x0fffffff;

function fits(parts: readonly PlayedPart[], endTick: number): boolean {
  const isWithin = (tick: number) => tick <= mostTicks;
  if (parts.length > mostParts || !isWithin(endTick)) return false;
  return parts.every(({ notes, controllers, texts }) =>
    [
      notes.every((note) => isWithin(note.endTick)),
      [...controllers, ...texts].every(({ tick }) => isWithin(tick)),
    ].every(Boolean),
  );
}

const percussion = 9;

/** What the score says; else one after the other, leaving out the channel of percussion. */
function channelOf({ channel, isPercussion }: Score['parts'][number], index: number): number {
  if (isPercussion) return percussion;
  if (channel !== null) return channel;
  const melodic = index % 15;
  return melodic < percussion ? melodic : melodic + 1;
}
