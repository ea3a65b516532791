import type { Clock } from '../../midi/index.js';
import type { Sheet } from '../types.js';
import type { BarTimes, PlayerData } from './data.js';

/** A sound of the music, to be put on its page. */
export interface SheetSound {
  /** A whole Ogg Vorbis file. */
  readonly ogg: Uint8Array;
  readonly lengthMs: number;
  /** What of the music its first sample is. Unit: ms from the beginning of the music. */
  readonly fromMs: number;
}

/** Finer than what is heard, and coarse enough for short texts. */
const perMs = 10;

/** As long as a frame lasts. Unit: ms. */
const frame = 1000 / 44_100;

/** Music with more bars than this in a sound has tempos that nobody means; time alone is told then. */
const mostBars = 20_000;

/** What the page tells its player: bars by the tempo map, and notes when they are heard. */
export function playerData(
  { parts, clock }: Pick<Sheet, 'parts' | 'clock'>,
  { fromMs, lengthMs }: Omit<SheetSound, 'ogg'>,
): PlayerData {
  const inSound = (ms: number) => Math.round((ms - fromMs) * perMs) / perMs;
  const bars = barsWithin(clock, fromMs, fromMs + lengthMs);
  const first = bars[0]?.bar ?? 1;
  const indexOf = (bar = 0) => (bar - first in bars ? bar - first : -1);
  return {
    lengthMs: Math.round(lengthMs * perMs) / perMs,
    bars: bars.map(({ bar, beats, toMs }) => ({ bar, beats: beats.map(inSound), toMs: inSound(toMs) })),
    notes: parts.map(({ notes }) =>
      notes.map(({ heardMs, place }) => [inSound(heardMs), indexOf(place?.bar)] as const),
    ),
  };
}

function barsWithin(clock: Clock, fromMs: number, toMs: number): readonly BarTimes[] {
  const first = clock.position(clock.tickAt(fromMs))?.bar;
  const bars: BarTimes[] = [];
  if (first === undefined) return bars;
  // Sounds have whole frames: a bar that has a part of one is not heard.
  for (let bar = first; ; bar++) {
    const [begin, end] = [clock.barStart(bar), clock.barStart(bar + 1)];
    if (begin === null || end === null || clock.ms(begin) >= toMs - frame) return bars;
    if (clock.ms(end) <= fromMs + frame) continue;
    if (bars.length === mostBars) return [];
    const beats: number[] = [];
    for (let tick: number | null = begin; tick !== null && tick < end; ) {
      beats.push(clock.ms(tick));
      tick = clock.barStart(bar, beats.length + 1);
    }
    bars.push({ bar, beats, toMs: clock.ms(end) });
  }
}
