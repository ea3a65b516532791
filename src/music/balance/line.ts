import { phrasesOf, type Struck } from '../../dynamics/index.js';
import { beatAt, clockOf, noteEnd, noteTick, pitchOf, type Song, velocityOf } from '../../midi/index.js';
import { mostBars } from './energy.js';
import { notesOf, type Voice } from './loud.js';
import type { LineBar } from './tune.js';

/** The upper line of a part by bars, and the bars in which a phrase of it begins. */
export interface UpperLine {
  readonly bars: ReadonlyMap<number, LineBar>;
  readonly begins: ReadonlySet<number>;
}

/** Notes struck within this are one onset. Unit: ms. */
const together = 50;

/** The highest notes of a part's onsets, in the bars that they belong to, and in those that they are held through. */
export function upperLine(song: Song, voice: Voice): UpperLine {
  const { part } = voice;
  const track = voice.track ?? song.tracks[part.track - 1];
  const clock = clockOf(song, part.track);
  const struck: Struck[] = [];
  const notes = track && notesOf(track, voice);
  for (let note = 0; notes && note < notes.length; note++) {
    const [tick, endTick] = [noteTick(notes, note), noteEnd(notes, note)];
    const pitch = pitchOf(notes, note);
    const last = struck.at(-1);
    const isOne = last !== undefined && clock.ms(tick) - clock.ms(last.tick) < together;
    if (isOne && last.pitch >= pitch) continue;
    if (isOne) struck.pop();
    const heldMs = clock.ms(endTick) - clock.ms(tick);
    const at = isOne ? last.tick : tick;
    struck.push({
      tick: at,
      lastTick: tick,
      endTick,
      pitch,
      velocity: velocityOf(notes, note),
      heldMs,
      paceMs: heldMs,
      restAfterMs: Infinity,
      breath: false,
    });
  }
  const onsets = struck.map((one, index): Struck => {
    const next = struck[index + 1];
    if (!next) return one;
    const [now, then] = [clock.ms(one.tick), clock.ms(next.tick)];
    return { ...one, paceMs: then - now, restAfterMs: Math.max(0, then - clock.ms(one.endTick)) };
  });
  const bars = new Map<number, { moves: number; sum: number; count: number }>();
  onsets.forEach(({ tick, endTick, pitch }, index) => {
    const first = beatAt(clock, tick)?.bar;
    const last = clock.position(Math.max(tick, endTick - 1))?.bar;
    if (first === undefined || last === undefined) return;
    const held = Math.min(Math.max(first, last), first + mostBars - 1);
    for (let bar = first; bar <= held; bar += 1) {
      const of = bars.get(bar) ?? { moves: 0, sum: 0, count: 0 };
      const isMove = bar === first && index > 0 && onsets[index - 1]?.pitch !== pitch;
      bars.set(bar, { moves: of.moves + (isMove ? 1 : 0), sum: of.sum + pitch, count: of.count + 1 });
    }
  });
  const begins = phrasesOf(onsets).flatMap(({ first }) => beatAt(clock, onsets[first]?.tick ?? 0)?.bar ?? []);
  return {
    bars: new Map([...bars].map(([bar, { moves, sum, count }]) => [bar, { moves, height: sum / count }])),
    begins: new Set(begins),
  };
}
