// Played notes become written rhythm, voices and spelling, as MEI.
import type { Clock } from '../../midi/index.js';
import { chordsByBar } from './chords.js';
import { clefOf } from './clef.js';
import { keysByBar } from './keys.js';
import { type Measure, measuresOf } from './measures.js';
import { writeScore } from './mei/score.js';
import { gathered, heldMeasures, roomFor } from './quiet.js';
import { staffBars, type Voices, voicesOfStaff } from './staff.js';
import { systemsOf } from './systems.js';
import type { NotatedBar, Notation, ScoreToNotate } from './types.js';
import type { VoiceEvent } from './voices.js';
import { barWidths, systemWidth } from './widths.js';

export { roomFor } from './quiet.js';
export type { NotatedBar, Notation, ScoreToNotate, StaffToNotate } from './types.js';

/**
 * Writes played parts down as a score: the rhythm on the grid that it was played on, in MEI 5.0. Every note is
 * written at the pitch that was played, and no two onsets of a staff at one place unless they were struck together.
 * Staff 2k + 1 holds part k (from 0), staff 2k + 2 is an empty line below it. Linear in notes: bars in which
 * nothing begins or ends cost nothing.
 */
export function notate(score: ScoreToNotate): Notation {
  const { clock, staves } = score;
  const ticks = [...score.chords, ...score.keys].map(({ tick }) => tick);
  const room = measuresOf(clock, roomFor({ clock, staves, ticks }, lastBar(score) + 1));
  const sounding = staves.map((staff) => voicesOfStaff(staff, clock, room));
  const needed = neededMeasures(room, sounding);
  const voices = sounding.map((staff) => endedAt(staff, needed.at(-1)?.end ?? 0));
  const measures = gathered(needed, voices, score);
  const fifths = keysByBar(score.keys, measures);
  const written = staves.map((staff, index) => ({
    label: staff.label,
    clef: clefOf(staff),
    words: new Map(staff.words.map(({ id, text }) => [id, text])),
    bars: staffBars(voices[index] ?? [[], []], measures),
    held: heldMeasures(voices[index] ?? [[], []], measures),
  }));
  const chords = chordsByBar(score.chords, measures);
  const systems = systemsOf(barWidths(written, measures, chords), systemWidth(written, fifths));
  const bars = measures.map(({ bar, bars, tick, endTick }, index): NotatedBar => {
    return { bar, bars, tick, endTick, system: systems[index] ?? 0 };
  });
  const { excerpt, positions } = writeScore({
    clock,
    measures,
    systems,
    fifths,
    staves: written,
    chords,
  });
  return {
    get mei() {
      return excerpt(0, Number.POSITIVE_INFINITY).mei;
    },
    excerpt,
    bars,
    positions,
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
