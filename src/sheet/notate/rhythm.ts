import type { Clock } from '../../midi/index.js';
import { chordsByBar } from './chords.js';
import { clefOf } from './clef.js';
import { keysByBar } from './keys.js';
import { barByBar, type Measure, measuresOf } from './measures.js';
import { gathered, heldMeasures, roomFor } from './quiet.js';
import { staffBars, type Voices, voicesOfStaff } from './staff.js';
import type { ScoreToNotate } from './types.js';
import type { VoiceEvent } from './voices.js';
import type { WrittenScore } from './written.js';

/**
 * Played parts with values, voices, clefs and keys, as they are written; not yet divided into systems.
 *
 * @param isGathered whether many quiet bars stand in one measure; else each bar has a measure of its own
 */
export function writtenScore(score: ScoreToNotate, isGathered = true): WrittenScore {
  const { clock, staves } = score;
  const ticks = [...score.chords, ...score.keys].map(({ tick }) => tick);
  const room = measuresOf(clock, roomFor({ clock, staves, ticks }, lastBar(score) + 1));
  const sounding = staves.map((staff) => voicesOfStaff(staff, clock, room));
  const needed = neededMeasures(room, sounding);
  const voices = sounding.map((staff) => endedAt(staff, needed.at(-1)?.end ?? 0));
  const measures = isGathered ? gathered(needed, voices, score) : measuresOf(clock, needed.flatMap(barByBar));
  return {
    clock,
    measures,
    systems: measures.map(() => 0),
    shown: [staves.map((_, index) => index)],
    fifths: keysByBar(score.keys, measures),
    staves: staves.map((staff, index) => ({
      label: staff.label,
      clef: clefOf(staff),
      words: new Map(staff.words.map(({ id, text }) => [id, text])),
      bars: staffBars(voices[index] ?? [[], []], measures),
      held: heldMeasures(voices[index] ?? [[], []], measures),
    })),
    chords: chordsByBar(score.chords, measures),
  };
}

/** The bar in which the score's last tick or its last onset lies. */
function lastBar({ clock, staves, endTick }: ScoreToNotate): number {
  let last = Number.isFinite(endTick) ? Math.max(0, endTick - 1) : 0;
  for (const { notes } of staves) last = Math.max(last, notes.at(-1)?.tick ?? 0);
  return barAt(clock, last);
}

function barAt(clock: Clock, tick: number): number {
  return clock.position(tick)?.bar ?? 1;
}

/** There is a bar more than was asked for, since an onset may be written at the bar line behind it. */
function neededMeasures(room: readonly Measure[], voices: readonly Voices[]): readonly Measure[] {
  const extra = room.at(-1);
  const isNeeded = voices
    .flat()
    .some((voice) => (voice.at(-1)?.start ?? 0) >= (extra?.start ?? 0) && voice.length > 0);
  return isNeeded || room.length < 2 ? room : room.slice(0, -1);
}

/** No note sounds on behind the last bar. */
function endedAt([line, second]: Voices, limit: number): Voices {
  const ended = ({ start, end, notes }: VoiceEvent) => ({ start, end: Math.min(end, limit), notes });
  return [line.map(ended), second.map(ended)];
}
