import type { Clock } from '../../midi/index.js';
import { writtenAlike } from './alike.js';
import { type Division, divisionOf } from './division.js';
import { layerOf } from './layers.js';
import { type Measure, unitAt } from './measures.js';
import { writtenOnsets } from './onsets.js';
import { writtenEnd } from './release.js';
import type { NoteToNotate, StaffToNotate } from './types.js';
import { type VoiceEvent, voicesOf } from './voices.js';
import type { StaffBar } from './written.js';

/** Two voices of a staff. */
export type Voices = readonly [readonly VoiceEvent[], readonly VoiceEvent[]];

/** Finds a staff's written values: onsets on the grid, ends, voices. */
export function voicesOfStaff(staff: StaffToNotate, clock: Clock, measures: readonly Measure[]): Voices {
  const { onsets, parts } = writtenOnsets(staff.notes, clock, measures);
  const grid = { measures, parts };
  const endOf = (note: NoteToNotate, start: number) =>
    writtenEnd(start, unitAt(measures, note.endTick), grid);
  const [line, second] = voicesOf(onsets, endOf, (clock.ticksPerWhole ?? 0) / 4);
  return [writtenAlike(line, grid), writtenAlike(second, grid)];
}

/** Writes a staff bar by bar. */
export function staffBars(voices: Voices, measures: readonly Measure[]): readonly StaffBar[] {
  const written = new Map<VoiceEvent, number>();
  const divisions = new Map<string, Division>();
  const next = [0, 0];
  return measures.map((measure) => {
    const key = `${measure.meter.count}/${measure.meter.unit}`;
    const division = divisions.get(key) ?? divisionOf(measure.meter);
    divisions.set(key, division);
    const sounding = voices.map((voice, index) => {
      let at = next[index] ?? 0;
      const found: VoiceEvent[] = [];
      for (let event = voice[at]; event && event.start < measure.end; event = voice[at]) {
        found.push(event);
        if (event.end > measure.end) break;
        at += 1;
      }
      next[index] = at;
      return found;
    });
    // Nothing begins or ends in many bars: they are written as one sign.
    if (measure.bars > 1) return [];
    return barOf(
      sounding.filter((events) => events.length > 0),
      measure,
      division,
      written,
    );
  });
}

/**
 * Two voices in one bar: the higher one is the first layer. A voice of a single event shows no rests beside one that
 * has more.
 */
function barOf(
  voices: readonly (readonly VoiceEvent[])[],
  measure: Measure,
  division: Division,
  written: Map<VoiceEvent, number>,
): StaffBar {
  const ordered = [...voices].sort((a, b) => meanPitch(b) - meanPitch(a));
  const most = ordered.reduce((count, { length }) => Math.max(count, length), 0);
  const fuller = ordered.findIndex(({ length }) => length === most);
  return ordered.map((events, index) =>
    layerOf(events, measure, division, written, index !== fuller && events.length === 1),
  );
}

function meanPitch(events: readonly VoiceEvent[]): number {
  let sum = 0;
  let count = 0;
  for (const { notes } of events)
    for (const { pitch } of notes) {
      sum += pitch;
      count += 1;
    }
  return sum / Math.max(1, count);
}
